"""The demo's own original: an otter on a river stone, made from signed distances."""
