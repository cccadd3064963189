"""Thin views: traits in, one pure call, chart and sentence out."""
