"""What arrays hold: numbers, indices, flags, or shapes of the geometry library."""

import numpy as np
import numpy.typing as npt

Numbers = npt.NDArray[np.float64]
Integers = npt.NDArray[np.int64]
Flags = npt.NDArray[np.bool_]
Shapes = npt.NDArray[np.object_]
Indices = npt.NDArray[np.intp]
