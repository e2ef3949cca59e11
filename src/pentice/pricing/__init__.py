"""Pricing: order and labour to a price with stages."""
