"""What the bench's script says, by the names under which it asks for it; what stands in braces is filled in there."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from moldwright.web.words.clocks import CLOCK_WORDS
from moldwright.web.words.marked import Words, words

BENCH_WORDS: Mapping[str, Words] = MappingProxyType(
    {
        **CLOCK_WORDS,
        "leave": words("Leave bench"),
        "strike": words("Strike out"),
        "more": words("Something else"),
        "close": words("Back to the work"),
        "on-scale": words("on the scale"),
        "point": words("."),
        "digits": words("Digits"),
        "back": words("Take back"),
        "write-it": words("Write it"),
        "type-it": words("Type what it reads"),
        "humidity": words("Humidity too"),
        "next-place": words("Next place"),
        "short": words("Short"),
        "right": words("Right"),
        "over": words("Over"),
        "allowed": words("Right from {low} to {high}."),
        "pour-on": words("Pour on up to {reads}: from there it is put right in whole steps of the scale."),
        "reads-now": words("It reads {reads} now"),
        "some-in": words("{some} in: the rest now, so much in all."),
        "holds": words("{in} in. This cup may hold {most}."),
        "is-in": words("{in} in."),
        "pour-turned": words("Mouth up. A thin stream at one place, then turn the mold."),
        "pour-filled": words("Mouth up, standing still. A thin stream down one side, level with the mouth."),
        "pour-down-a-side": words("Mouth up, wedged, level. Slowly, down one side: no air under it."),
        "looks-only": words("This device may only look. Whoever keeps the shop can let it press, under Shop."),
        "part-in": words("{part} is in, up to {total}."),
        "part-now": words("{part} goes in now, up to {total}."),
        "part-to-come": words("{part} is to come, up to {total}."),
        "part-short": words("{part} is short of {total}."),
        "part-over": words("{part} is over, {total}."),
        "wall-built": words("Built: {layers}."),
        "wall-now": words("In hand: {layers}."),
        "wall-to-come": words("To come: {layers}."),
        "step": words("Step {number}. {title}"),
        "cast": words("Cast {turn} of {casts}"),
        "in-hand": words("in hand"),
        "meanwhile": words("Meanwhile"),
        "later": words("When its wait is over"),
        "other-step": words("Another step"),
        "photo": words("Photo"),
        "lot": words("The lot"),
        "taken-from": words("Taken from"),
        "no-lot": words("Of none of these: none of them may be used."),
        "take-lot": words("Take this one"),
        "no-hands": words("No hands: nothing may be done now"),
        "sign-flame": words("Burns"),
        "sign-corrosion": words("Burns skin and eyes"),
        "sign-skull": words("Poison"),
        "sign-exclamation": words("Irritates"),
        "sign-health": words("Harms inside the body"),
        "sign-environment": words("Harms water life"),
        "cautions": words("Cautions and first aid"),
        "log": words("The log"),
        "found": words("To settle"),
        "sound": words("Sound"),
        "mold": words("Put the mold into the register"),
        "before": words("Before you open anything: {title}"),
        "read": words("Read"),
        "sheet-of": words("See the sheet: {stuff}"),
        "ask-sheet": words(
            "No safety data sheet is here of: {stuff}. Ask the supplier for it before you open anything; it is kept "
            "with the lot on the shelf."
        ),
        "ask-sheets": words(
            "Ask the suppliers for the safety data sheets of what you use here before you open anything; each is kept "
            "with its lot on the shelf."
        ),
        "pour-now": words("Pour now. It gels in"),
        "put-right-note": words("What still goes in follows by itself."),
        "asking": words("Kept. The desk is asked what is next."),
        "beyond": words("Kept on this tablet"),
        "beyond-more": words(
            "What is next only the desk knows: it is shown once the Wi-Fi is back. Until then the clocks go on here. "
            "Go on by the paper sheet and write what you do as a note, under Something else; or take this tablet to "
            "where there is Wi-Fi. Strike out goes one back."
        ),
        "needs-server": words("needs the Wi-Fi"),
        "desk-next": words("Kept here. What is next comes with the Wi-Fi."),
        "in-doubt": words("{clock} (by this device's clock, the desk is asked)"),
        "not-kept": words("This could not be kept. Do it again; if it stays so, write it on the paper sheet."),
    }
)
