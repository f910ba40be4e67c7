"""Pictures and pages of PDFs as a ground to trace from: looked at, made ready to be shown, kept beside a job."""
