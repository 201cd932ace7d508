"""Text to nodes that know their places, nodes to the model. Reading errors are R01 and up."""
