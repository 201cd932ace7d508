"""What a turn-on wire must read: figures in volts and seconds."""

from __future__ import annotations

# Awake: measured good is 11 to 15 V (a trade guide's page, seen 2026); that less than 10 V, or more than 1 V lost on
# the way, is a fault: common practice, no source.
LEAST_AWAKE_V = 10.0
MOST_LOST_V = 1.0
# Asleep, of a turn-on wire that is off: common practice, no source; as on the turn-on sheet.
MOST_ASLEEP_V = 1.0
# Live, of what nothing may feed: a ground, an empty cavity, a wire whose plug is apart, or so much below the body. No
# drop on a good ground and no meter explains it. Common practice, no source. Another matter than to be asleep, where
# a radio may leave a little on the wire: the two figures are the same and needn't be.
LIVE_V = 1.0
# Retained power holds for 5 to 10 min (a trade guide's page, seen 2026), and 30 s more: common practice, no source.
RETAINED_S = 10 * 60.0 + 30.0
# What a ground, or a pair that nothing feeds, may show at most: common practice, no source.
MOST_WITHOUT_FEED_V = 0.1
