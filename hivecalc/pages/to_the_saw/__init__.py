"""What the lessons of shop and saw say: basket, boards, sheets, settings."""
