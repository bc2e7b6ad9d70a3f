"""Why insulate: where heat goes out, where wood bridges the foam, where drops form.

    layers      units in and out; walls, roof and bottom board as layers (ISO 6946): `surfaces`
    sections    steady heat through any section (ISO 10211): `solved`; what wood costs: `bridges`
    losses      watts of the whole hive: `losses`, `compared`; where the first drop forms: `faces`;
                and the sum as a learner does it, with its slips

Inside is SI and °C; `temperature`, `humidity` and `in_both` are the way in and out.
"""
