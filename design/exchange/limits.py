"""How much of a file is read, and what reading it may cost: all in one place."""

MAX_BYTES = 5_000_000
MAX_POINTS = 100_000  # corners in the file; a garden surveyed by total station has some hundreds
MAX_SHAPES = 20_000
MAX_KEPT_POINTS = 20_000  # after thinning, of all shapes together
MAX_ENTITIES = 60_000  # of a drawing, those of its blocks and the vertices of its old polylines too
MAX_LAYERS = 80
MAX_DEPTH = 8  # blocks in blocks, collections in collections
MAX_COORDINATE = 1e11  # a map grid in millimetres stays below it
MAX_LABEL = 120
MAX_LAYER_NAME = 80

CPU_SECONDS = 10
WALL_SECONDS = 15
MEMORY_BYTES = 512 * 1024 * 1024  # address space, of which the libraries alone take a part
