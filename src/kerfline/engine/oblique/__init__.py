"""The general method: joints for pieces of slab that no square grid fits."""

from kerfline.engine.oblique.general import lay_out_region as lay_out_region
