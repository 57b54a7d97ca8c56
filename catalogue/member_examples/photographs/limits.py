"""What a photograph may be, and what opening one may cost."""

MEGABYTE = 1_000_000
MOST_BYTES = 25 * MEGABYTE
# A hundred such pictures chosen at once without a script, and the rest of the form: what the server lets through to be
# refused picture by picture in words. A bigger body it breaks off itself. README's command names the same number.
LARGEST_REQUEST = 101 * MOST_BYTES

# By kind of file. A JPEG is decoded at a fraction of its size, the others are not.
MOST_MEGAPIXELS = {"JPEG": 60, "PNG": 24, "WebP": 24, "HEIC": 24}

# The longer side of each stored size, in pixels, the largest first; a picture is never enlarged.
SIZES = (1600, 800, 320)

# Resident memory of the child.
MEMORY_FOR_JPEG = 200 * MEGABYTE
MEMORY_FOR_OTHERS = 500 * MEGABYTE

# Of a JPEG in several passes, as a progressive one, libjpeg holds every coefficient until the end, two bytes each, at
# whatever size it is decoded; no package re-saves one without doing so. Beside them the child needs its own forty
# megabytes and what the reduced picture takes. Up to so many bytes of them a JPEG fits into what a JPEG may take: 48
# megapixels with halved colours, as is usual, 36 with colours halved one way, 24 with full colours; a larger one may
# take what the other formats may (measured: `python -m tests.benchmarks.photographs intake`).
COEFFICIENT_BYTES_OF_A_JPEG = 144 * MEGABYTE
# And up to so many it fits into that. Sixty megapixels of full colours have 360; only four inks have more.
MOST_COEFFICIENT_BYTES = 430 * MEGABYTE

# One picture, by the clock on the wall and by the processor's; and all pictures of one visit.
SECONDS_FOR_ONE = 20
SECONDS_FOR_ALL = 90

# Children at a time in one process of the site: two fill the society's small server.
MOST_CHILDREN = 2
