"""What a route needs: a role. A route that tells none is refused when the desk is put together."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from fastapi import Depends, FastAPI, Request
from fastapi.routing import RouteContext, iter_route_contexts

from moldwright.errors import InputRefused
from moldwright.web.doors.visitor import Role, Visitor


class Needs:
    """A dependency: the visitor, refused where the role does not reach."""

    def __init__(self, role: Role | None) -> None:
        self.role = role

    def __call__(self, request: Request) -> Visitor | None:
        visitor: Visitor | None = request.state.visitor
        if self.role is None:
            return visitor
        if visitor is None:
            raise InputRefused("not-signed-in", "nobody", "somebody who is signed in", "", "Sign in first.")
        if visitor.role < self.role:
            remedy = "Ask the owner of the shop."
            raise InputRefused("role-too-small", visitor.role.name.lower(), self.role.name.lower(), "", remedy)
        return visitor


def needs(role: Role) -> Any:
    """What stands in a router's or a route's `dependencies`, or as a default of a parameter `visitor`.

    Parameters
    ----------
    role : the least that is enough.
    """
    return Depends(Needs(role))


def open_to_all() -> Any:
    """Of the few routes that nobody needs to be signed in for: signing in, joining."""
    return Depends(Needs(None))


@dataclass(frozen=True, slots=True)
class GuardedRoute:
    """A route as it stands in an app.

    Parameters
    ----------
    path : with its parameters in braces.
    methods : it answers.
    told : whether it tells a role, or that it is open to all.
    role : the least that is enough; None for one that is open to all.
    """

    path: str
    methods: tuple[str, ...]
    told: bool
    role: Role | None


def guarded_routes(app: FastAPI) -> tuple[GuardedRoute, ...]:
    """Every route of an app, those of its routers too.

    Parameters
    ----------
    app : with all its routes.
    """
    return tuple(_guarded(each) for each in iter_route_contexts(app.routes) if hasattr(each, "dependant"))


def unguarded(app: FastAPI) -> list[str]:
    """Routes that tell no role: there may be none.

    Parameters
    ----------
    app : with all its routes.
    """
    return [each.path for each in guarded_routes(app) if not each.told]


def open_paths(app: FastAPI) -> frozenset[str]:
    """Paths that are open to all; each is one path and no pattern.

    Parameters
    ----------
    app : with all its routes.
    """
    return frozenset(each.path for each in guarded_routes(app) if each.told and each.role is None)


def _guarded(route: RouteContext) -> GuardedRoute:
    needed = [each.call for each in route.dependant.dependencies if isinstance(each.call, Needs)]
    roles = [each.role for each in needed if each.role is not None]
    return GuardedRoute(route.path or "", tuple(sorted(route.methods or ())), bool(needed), max(roles, default=None))
