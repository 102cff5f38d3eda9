"""What is known of old sewing machines and their numbers. No network, no chat, no mail. Read answer.py first."""
