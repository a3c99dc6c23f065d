"""The pages, one folder each: `route.py`, `page.html`, `element.ts`, `style.css`."""
