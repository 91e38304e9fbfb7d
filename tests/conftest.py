"""Shared by all tests: notebooks always see the demo, never a maker's own file."""

import os

from hypothesis import settings

# notebooks run in kernels that inherit this, so a maker's own my_mixer.toml cannot change their outputs
os.environ["MIXERKIT_DESIGN"] = "/no such folder/my_mixer.toml"
settings.register_profile("kit", deadline=None)
settings.load_profile("kit")
