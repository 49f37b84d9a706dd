"use strict";

/*
What is asked of the desk to change something: with the token of this page, which no other page can read.
The page is loaded again once it is done.
*/

(() => {
  const API = "/_/api";

  async function ask(path) {
    const { token } = await (await fetch(`${API}/token`)).json();
    return fetch(path, { method: "POST", headers: { "X-Journal-Token": token } });
  }

  for (const button of document.querySelectorAll("button[data-ask]")) {
    button.addEventListener("click", async () => {
      button.disabled = true;
      try {
        if ((await ask(button.dataset.ask)).ok) location.reload();
      } finally {
        button.disabled = false;
      }
    });
  }
})();
