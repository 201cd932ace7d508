"""ringout: proves a car-audio job on paper before anyone opens the dash."""

__version__ = "0.2.0"
