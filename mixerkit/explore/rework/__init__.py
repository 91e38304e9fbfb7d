"""What a spoiled part can still become: gears and shafts, what sits on a shaft, holes of the plates."""
