"""What a colour salon's exported records mean, worked out from a folder of files.

numpy's linear algebra works in one thread unless the machine says otherwise: the matrices here are so small that
several threads mostly wait for each other (measured on two cores: a tenth of the processor time for the salon's clock,
a third for the clients' rhythms). It reads this when it is loaded, so it must be said before anything imports it.
"""

import os

os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
