"""The laws, pure: quantities in, quantities out."""
