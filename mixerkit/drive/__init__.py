"""What turns, how fast, how hard: motor, reducer, gear paths."""

from mixerkit.drive import gearpaths, motor, powerflow, reducer

__all__ = ["gearpaths", "motor", "powerflow", "reducer"]
