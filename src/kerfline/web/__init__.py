"""The local page: a thin face of app.

``serve`` opens a job in the browser, ``kerfline.web.one_file.page_bytes`` writes the page that needs
no server. The measures that the page shows are computed here in Python, by the code of
``kerfline check``; the scripts under ``static`` draw and ask.
"""

from kerfline.web.running import serve

__all__ = ["serve"]
