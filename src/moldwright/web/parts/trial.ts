/** Into the shop to try the desk in, and out of it again; the buttons stand on any page. */

import { saying } from "./said";
import { send } from "./send";

document.addEventListener("click", (event) => {
  const button = event.target instanceof Element ? event.target.closest<HTMLElement>("[data-trial]") : null;
  const path = button?.dataset["trial"];
  if (!button || !path) return;
  void saying(button.parentElement!, async () => {
    button.setAttribute("aria-disabled", "true");
    try {
      const told: { path: string } = await send("POST", path);
      window.location.assign(told.path);
    } finally {
      button.removeAttribute("aria-disabled");
    }
  });
});
