"""What a mix stands in, in words: a cup, or the bucket of a shell's gypsum."""

from __future__ import annotations

from moldwright.plan.mixes import MixKind, MixPlan
from moldwright.words.speaker import say, say_count


def vessels_counted(kind: MixKind, count: int) -> str:
    """How many there are of them.

    Parameters
    ----------
    kind : what is mixed in them.
    count : how many.

    >>> vessels_counted(MixKind.COAT, 2), vessels_counted(MixKind.SHELL, 1)
    ('2 cups', '1 bucket')
    """
    if kind is MixKind.SHELL:
        return say_count("{num} bucket", "{num} buckets", count, num=count)
    return say_count("{num} cup", "{num} cups", count, num=count)


def vessel_named(mix: MixPlan) -> str:
    """One of them by its number: "Cup 1", "Bucket 1".

    Parameters
    ----------
    mix : what stands in it.
    """
    if mix.for_.kind is MixKind.SHELL:
        return say("Bucket {cup}", cup=mix.cup)
    return say("Cup {cup}", cup=mix.cup)


def vessel_said(mix: MixPlan) -> str:
    """The same within a sentence: "cup 1", "bucket 1".

    Parameters
    ----------
    mix : what stands in it.
    """
    if mix.for_.kind is MixKind.SHELL:
        return say("bucket {cup}", cup=mix.cup)
    return say("cup {cup}", cup=mix.cup)


def vessels_named(first: MixPlan, last: MixPlan) -> str:
    """Those from one to another, which are alike: "Cups 1 to 3, each".

    Parameters
    ----------
    first, last : what stands in the first and the last of them.
    """
    if first.cup == last.cup:
        return vessel_named(first)
    if first.for_.kind is MixKind.SHELL:
        return say("Buckets {first} to {last}, each", first=first.cup, last=last.cup)
    return say("Cups {first} to {last}, each", first=first.cup, last=last.cup)


def vessel_of(mix: MixPlan, count: int) -> str:
    """One of several, within a sentence: "cup 1 of 2".

    Parameters
    ----------
    mix : what stands in it.
    count : how many there are of them.
    """
    if mix.for_.kind is MixKind.SHELL:
        return say("bucket {cup} of {cups}", cup=mix.cup, cups=count)
    return say("cup {cup} of {cups}", cup=mix.cup, cups=count)


def begun(mix: MixPlan) -> str:
    """How it is begun, by how its parts are measured.

    Parameters
    ----------
    mix : what will stand in it.
    """
    if mix.marked:
        return say("Marked cup, read level.")
    if mix.for_.kind is MixKind.SHELL:
        return say("Zero the empty bucket.")
    return say("Zero the empty cup.")


def zeroed_once(mix: MixPlan) -> str:
    """The same for a label, which stays on it.

    Parameters
    ----------
    mix : what will stand in it.
    """
    return say("Zero the empty bucket once") if mix.for_.kind is MixKind.SHELL else say("Zero the empty cup once")
