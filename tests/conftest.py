"""Shared by all tests: notebooks always see the demo, never a maker's own file."""

import os

from hypothesis import settings

# notebooks run in kernels that inherit this, so a maker's own my_mixer.toml cannot change their outputs
os.environ["MIXERKIT_DESIGN"] = "/no such folder/my_mixer.toml"
# the quick tier draws the same examples every time; tests/long.py draws many and new ones
settings.register_profile("kit", deadline=None, derandomize=True)
settings.register_profile("long", deadline=None, max_examples=1000)
settings.load_profile(os.environ.get("MIXERKIT_EXAMPLES", "kit"))
