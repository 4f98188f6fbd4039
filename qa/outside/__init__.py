"""What touches the world: files in, the database, Jinja2, plots; none imports a stage or another of them."""
