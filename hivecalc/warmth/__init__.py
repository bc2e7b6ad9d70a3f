"""Why insulate: where heat goes out, where wood bridges the foam, where drops form.

Inside is SI and °C; `temperature`, `humidity` and `in_both` of `layers` are the way in and out.
"""
