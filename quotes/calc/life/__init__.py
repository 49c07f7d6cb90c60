"""How parts wear, and the chance that they last."""
