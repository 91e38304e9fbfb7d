"""What turns, how fast, how hard: motor, reducer, gear paths."""

from mixerkit.drive import gearpaths, motor, motor_checks, powerflow, reducer

__all__ = ["gearpaths", "motor", "motor_checks", "powerflow", "reducer"]
