"""The evidence file: lines put behind each other, each on the disk before anybody is told so. Bytes only.

What a record means is read elsewhere; here nothing is known of jobs.
"""
