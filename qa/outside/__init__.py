"""What touches the world: files in, the database, Jinja2, plots. Outside modules import neither stages nor each other."""
