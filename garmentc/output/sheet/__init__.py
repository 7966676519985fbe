"""The sheet that goes with a pattern: what is needed, what to cut, and how to sew it, as HTML and as Markdown."""
