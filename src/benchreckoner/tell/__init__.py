"""What leaves the bench: pages for those who never open a notebook."""
