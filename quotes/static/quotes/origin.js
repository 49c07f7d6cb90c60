/* Where a number comes from: the answer is shown over the sheet, and closing it gives the focus back to the number.
   Without a script the number is a link to a page of its own. */
"use strict";

(function () {
  const dialog = document.getElementById("origin");

  dialog.addEventListener("htmx:afterSwap", () => {
    if (!dialog.open) dialog.showModal();
    dialog.scrollTop = 0;
    document.getElementById("origin-title").focus({ preventScroll: true });
  });
})();
