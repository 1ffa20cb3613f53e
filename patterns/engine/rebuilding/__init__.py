"""The table at which `rebuild` sews, with a plane geometry of its own."""
