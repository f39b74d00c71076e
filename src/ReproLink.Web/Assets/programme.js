// While settings change, the check below is made anew by the server and put in its place. Without scripts a button does the same.
(() => {
  "use strict";
  const form = document.getElementById("settings");
  const check = document.getElementById("check");
  const says = document.getElementById("check-says");
  if (!form || !check || !window.fetch) return;
  const quiet = 350;
  let timer = 0;
  let asked = 0;

  const ask = async () => {
    const mine = ++asked;
    check.setAttribute("aria-busy", "true");
    try {
      const answer = await fetch(form.dataset.check, { method: "POST", body: new URLSearchParams(new FormData(form)), headers: { "X-Part": "check" } });
      const html = answer.ok ? await answer.text() : "";
      // Only the answer to the last question counts; one that is no check (signed out) leaves the page as it is.
      if (mine === asked && answer.headers.get("X-Part") === "check") {
        check.innerHTML = html;
        // Who cannot see it hears the verdict, not the whole picture.
        says.textContent = check.querySelector(".verdict").textContent;
      }
    } catch {
      // The network is gone: what stands there is of the settings before, and the button still asks.
    } finally {
      if (mine === asked) check.removeAttribute("aria-busy");
    }
  };

  const changed = (event) => {
    if (event.target.closest(".save, .add-dates")) return;
    clearTimeout(timer);
    timer = setTimeout(ask, quiet);
  };
  form.addEventListener("input", changed);
  form.addEventListener("change", changed);

  // A link to a setting, or one filled in, opens the group it stands in.
  const open = () => {
    const target = location.hash && document.getElementById(decodeURIComponent(location.hash.slice(1)));
    const group = target && target.closest("details.group");
    if (group) { group.open = true; target.scrollIntoView(); }
  };
  addEventListener("hashchange", open);
  open();
})();
