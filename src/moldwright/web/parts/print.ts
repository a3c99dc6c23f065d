/** Buttons that print the page; without a script the browser's own menu does. */

document.addEventListener("click", (event) => {
  if (event.target instanceof Element && event.target.closest("[data-print]")) window.print();
});
document.documentElement.classList.add("prints");
