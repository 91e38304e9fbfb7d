"""What turns, how fast, how hard: motor, reducer, gear paths."""

from mixerkit.drive import dogclutch, gearpaths, motor, motor_checks, powerflow, reducer

__all__ = ["dogclutch", "gearpaths", "motor", "motor_checks", "powerflow", "reducer"]
