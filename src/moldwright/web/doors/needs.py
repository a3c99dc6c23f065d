"""What a route needs: a role. A route that tells none is refused when the desk is put together."""

from __future__ import annotations

from typing import Any

from fastapi import Depends, FastAPI, Request
from fastapi.routing import APIRoute

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


def unguarded(app: FastAPI) -> list[str]:
    """Routes that tell no role: there may be none.

    Parameters
    ----------
    app : with all its routes.
    """
    return [route.path for route in app.routes if isinstance(route, APIRoute) and not _told(route)]


def open_paths(app: FastAPI) -> frozenset[str]:
    """Paths that are open to all; each is one path and no pattern.

    Parameters
    ----------
    app : with all its routes.
    """
    return frozenset(route.path for route in app.routes if isinstance(route, APIRoute) and role_of(route) is None)


def role_of(route: APIRoute) -> Role | None:
    """The least role that is enough for a route; None for one that is open to all.

    Parameters
    ----------
    route : one that tells it.
    """
    roles = [each.call.role for each in route.dependant.dependencies if isinstance(each.call, Needs)]
    return max((role for role in roles if role is not None), default=None)


def _told(route: APIRoute) -> bool:
    return any(isinstance(each.call, Needs) for each in route.dependant.dependencies)
