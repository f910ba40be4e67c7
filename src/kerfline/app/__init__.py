"""One function per job; a newcomer starts here."""
