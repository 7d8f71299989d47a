// The live connection of the editor or the explorer: what the page says and allows while it is lost, and the way back.
(() => {
  "use strict";
  let reference = null;
  let offline = false;

  const root = () => document.getElementById("editor") ?? document.getElementById("explorer");

  function say(words, retry) {
    const place = document.getElementById("connection");
    if (!place) {
      return;
    }
    place.hidden = !words;
    place.textContent = words ?? "";
    if (retry) {
      const button = document.createElement("button");
      button.type = "button";
      button.textContent = "Try to connect again";
      button.addEventListener("click", connect);
      place.append(" ", button);
    }
  }

  // Tells the server that the typing up to this number has arrived; 0 only asks whether it answers.
  const received = (number) => reference?.invokeMethodAsync("ReceivedAsync", number);

  function setOffline(now) {
    offline = now;
    root()?.classList.toggle("is-offline", now);
    if (now) {
      say("Offline: kept on this device. What you type goes to the server as soon as it can be reached; buttons work again then.");
      for (const button of buttons()) {
        button.setAttribute("aria-disabled", "true");
      }
    } else {
      say(null);
      for (const button of buttons()) {
        button.removeAttribute("aria-disabled");
      }
    }
  }

  // All that only the server can carry out; typing is kept here and the banner has a button of its own.
  const buttons = () => [...(root()?.querySelectorAll("button") ?? [])].filter((b) => !b.closest("#connection"));

  function onClickOffline(event) {
    const button = event.target.closest?.("button");
    if (offline && button && buttons().includes(button)) {
      event.preventDefault();
      event.stopImmediatePropagation();
      say(`Offline: not possible now: ${button.getAttribute("aria-label") ?? button.textContent.trim()}. What you type is kept on this device.`);
    }
  }

  // The connection stands again: what could not be sent is sent now.
  function backOnline() {
    setOffline(false);
    window.dispatchEvent(new Event("preapproval-online"));
  }

  // True when the server answers on the connection there is.
  function answers() {
    const wait = new Promise((resolve) => setTimeout(() => resolve(false), 3000));
    const asked = received(0)?.then(() => true, () => false) ?? false;
    return Promise.race([asked, wait]);
  }

  async function connect() {
    if (await answers()) {
      // A short gap that the connection has outlived: nobody else tells that it is over.
      backOnline();
      return;
    }
    if (!offline) {
      // Another attempt has come first.
      return;
    }
    try {
      if (!(await window.Blazor.reconnect())) {
        location.reload();
      } else if (offline) {
        backOnline();
      }
    } catch {
      await unreachable();
    }
  }

  // An attempt has failed; another may stand by now.
  async function unreachable() {
    if (await answers()) {
      backOnline();
    } else {
      setOffline(true);
      say("Offline: kept on this device. The server cannot be reached.", true);
    }
  }

  function onConnection(event) {
    switch (event.detail.state) {
      case "show":
      case "retrying":
        setOffline(true);
        break;
      case "hide":
        backOnline();
        break;
      case "failed":
        setOffline(true);
        unreachable();
        break;
      case "rejected":
        // The server has forgotten this page: a new one offers what was kept.
        location.reload();
        break;
    }
  }

  document.addEventListener("click", onClickOffline, true);
  document.addEventListener("components-reconnect-state-changed", onConnection, true);
  window.addEventListener("offline", () => setOffline(true));
  window.addEventListener("online", () => {
    if (offline) {
      connect();
    }
  });

  window.preapprovalConnection = {
    watch(dotNet) {
      reference = dotNet;
    },
    received,
    say,
    offline: () => offline,
  };
})();
