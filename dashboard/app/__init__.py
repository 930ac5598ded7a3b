"""What stands around every page: the navigation, the filters pages share, the foot.

The script stands in a folder of its own, since Streamlit takes a folder pages/ beside the script it runs for pages to
run without it.
"""
