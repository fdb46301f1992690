"""Files in and out: shapes read from other programs' files, and the plan written for them."""
