"""The command line: the only code that prints and exits."""

import gc

# Before anything is loaded: a comparison makes fewer objects than this, and next to none in cycles, so that looking
# for those, a dozen times a second, would only take time. What draws makes many, and they are still found.
gc.set_threshold(300_000)
