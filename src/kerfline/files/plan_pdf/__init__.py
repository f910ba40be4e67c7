"""Reads a page of a PDF as a drawing: its lines, curves and texts in real size.

::

    pdf_file -> page_objects -> bezier     the page, its paths and texts on paper, arcs told from curves
    page_content                           the same in a process of its own, with bounds
    page_scale                             the scale that the page or its dimensions state
    read_pdf                               the drawing, for the one reading of drawings

Nothing is imported here, so that the process that reads a page starts at once.
"""
