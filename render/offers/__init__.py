"""The paper of `ringout weigh`: the offers side by side, and what one of them costs the owner of the car."""
