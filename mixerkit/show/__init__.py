"""Pictures, tables, notebooks' panels and the report."""
