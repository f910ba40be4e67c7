"""Sheets as lists of marks in paper millimetres; no file format is known here."""
