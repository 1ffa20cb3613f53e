"""The table at which `rebuild` sews: plane geometry and operations of its own, sharing no code with the writers."""
