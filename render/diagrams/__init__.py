"""Pictures of routes: `dot` writes what Graphviz reads, `run` runs it, `route` measures and draws."""
