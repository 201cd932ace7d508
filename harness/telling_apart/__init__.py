"""Which of several maps a plug in hand is: the shortest set of looks, ohms and tones that tells them apart."""
