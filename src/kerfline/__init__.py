"""kerfline lays out, checks and draws the control joints of a concrete slab on ground."""
