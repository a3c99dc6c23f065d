"""`python -m benchmarks [desk|field|plan|run|shop|split ...]`: run all or the named ones and print their ratios."""

from __future__ import annotations

import sys

from benchmarks import desk_cost, field_cost, plan_cost, run_cost, shop_cost, split_cost

ALL = {
    "desk": desk_cost.run,
    "field": field_cost.run,
    "plan": plan_cost.run,
    "run": run_cost.run,
    "shop": shop_cost.run,
    "split": split_cost.run,
}


def main(names: list[str]) -> int:
    """Exit code 0 where every ratio keeps its limit, 1 otherwise, 2 for an unknown name."""
    if unknown := [name for name in names if name not in ALL]:
        print(f"unknown benchmark {unknown[0]}; known: {', '.join(ALL)}", file=sys.stderr)
        return 2
    kept = [ALL[name]() for name in names or ALL]
    return 0 if all(kept) else 1


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
