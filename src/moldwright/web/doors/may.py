"""What whoever calls may do, told by the routes themselves: a page shows an act where its door would let it pass."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

from fastapi import FastAPI
from starlette.requests import Request
from starlette.routing import compile_path

from moldwright.errors import ComputationFailed
from moldwright.web.doors.needs import GuardedRoute, guarded_routes
from moldwright.web.doors.visitor import Role, Visitor

KNOWN = 2048
"""So many calls are remembered (our own)."""


class RolesNeeded:
    """The role that each call needs, read from the routes of an app.

    Parameters
    ----------
    app : with all its routes.
    """

    def __init__(self, app: FastAPI) -> None:
        self._routes = tuple((each, compile_path(each.path)[0]) for each in guarded_routes(app))
        self.of = lru_cache(KNOWN)(self._of)

    def _of(self, method: str, path: str) -> Role | None:
        """The least role that is enough; None: open to all.

        Raises ComputationFailed ("route-unknown"): a page names what no route answers.
        """
        return self._route(method, path).role

    def _route(self, method: str, path: str) -> GuardedRoute:
        for route, pattern in self._routes:
            if method in route.methods and pattern.match(path):
                return route
        remedy = "Name a path that a route answers."
        raise ComputationFailed("route-unknown", f"{method} {path}", "a route of the desk", "", remedy)


@dataclass(frozen=True, slots=True)
class May:
    """`may("POST", "/api/lots")` in a template: whether whoever reads it would be let pass there.

    Parameters
    ----------
    needed : the roles by the routes.
    visitor : who reads; None: nobody that is signed in.
    """

    needed: RolesNeeded
    visitor: Visitor | None

    def __call__(self, method: str, path: str) -> bool:
        role = self.needed.of(method.upper(), path.partition("?")[0].partition("#")[0])
        return role is None or self.has(role)

    def has(self, role: Role) -> bool:
        """Whether their role reaches.

        Parameters
        ----------
        role : the least that is enough.
        """
        return self.visitor is not None and self.visitor.role >= role


def may_of(request: Request) -> May:
    """What whoever calls may do.

    Parameters
    ----------
    request : any.
    """
    return May(request.app.state.roles_needed, getattr(request.state, "visitor", None))
