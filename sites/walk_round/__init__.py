"""The walk round a site: what is asked, in the order in which a person walks, and what is still missing."""
