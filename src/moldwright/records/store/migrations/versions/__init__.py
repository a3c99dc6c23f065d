"""The steps. One that was released is never changed; the next one names it as its `down_revision`."""
