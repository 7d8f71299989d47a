// Keeps what is typed in the editor on this device until the server has confirmed a save that holds it.
(() => {
  "use strict";
  const prefix = "preapproval:draft:";
  let key = null;
  let reference = null;
  let version = 0;
  let sequence = 0;
  let offline = false;
  let journal = { typed: {}, kept: [] };

  const root = () => document.getElementById("editor") ?? document.getElementById("explorer");

  function load() {
    try {
      const stored = JSON.parse(localStorage.getItem(key) ?? "{}");
      return { typed: stored.typed ?? {}, kept: stored.kept ?? [] };
    } catch {
      return { typed: {}, kept: [] };
    }
  }

  function store() {
    try {
      if (Object.keys(journal.typed).length === 0 && journal.kept.length === 0) {
        localStorage.removeItem(key);
      } else {
        localStorage.setItem(key, JSON.stringify(journal));
      }
    } catch {
      say("This browser does not let pages keep anything: stay on this page until it says Saved.");
    }
  }

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

  const read = (field) => (field.type === "checkbox" ? String(field.checked) : field.value);

  function labelOf(field) {
    const own = field.getAttribute("aria-label") ?? field.labels?.[0]?.textContent.trim() ?? field.id;
    const row = field.closest("fieldset.row")?.querySelector(":scope > legend")?.textContent.trim();
    const section = field.closest("section")?.querySelector("h2")?.textContent.trim();
    return [section, row, own].filter(Boolean).join(", ");
  }

  function onInput(event) {
    const field = event.target;
    if (!key || !field.id || !root()?.contains(field) || field.closest("[data-no-journal]")) {
      return;
    }
    // A short name goes to the server when the field is left: until then no save can hold it.
    const waits = event.type === "input" && "late" in field.dataset;
    if (!waits) {
      sequence += 1;
    }
    const number = waits ? Number.MAX_SAFE_INTEGER : sequence;
    journal.typed[field.id] = { value: read(field), label: labelOf(field), version, number };
    store();
    if (waits) {
      return;
    }
    // After the event has gone to the server: the number then says that all before it has arrived.
    setTimeout(() => reference?.invokeMethodAsync("ReceivedAsync", number).catch(() => {}), 0);
  }

  function write(field, value) {
    if (field.type === "checkbox") {
      field.checked = value === "true";
    } else {
      field.value = value;
    }
    field.dispatchEvent(new Event("input", { bubbles: true }));
    field.dispatchEvent(new Event("change", { bubbles: true }));
  }

  // Puts values into their fields as if typed again; what has no field any more stays kept.
  function type(entries) {
    const left = [];
    for (const entry of entries) {
      const field = document.getElementById(entry.field);
      if (field && "value" in field) {
        write(field, entry.value);
      } else {
        left.push(entry);
      }
    }
    return left;
  }

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
    type(Object.entries(journal.typed).map(([field, entry]) => ({ field, value: entry.value })));
    window.dispatchEvent(new Event("preapproval-online"));
  }

  // True when the server answers on the connection there is.
  function answers() {
    const wait = new Promise((resolve) => setTimeout(() => resolve(false), 3000));
    const asked = reference?.invokeMethodAsync("ReceivedAsync", 0).then(() => true, () => false) ?? false;
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

  function findField(pointer) {
    for (let path = pointer; path; path = path.slice(0, path.lastIndexOf("/"))) {
      const exact = document.getElementById(path);
      if (exact) {
        return exact;
      }
      if (path === pointer) {
        const inside = [...document.querySelectorAll("#editor [id]")].find((e) => e.id.startsWith(path + "/") && "value" in e);
        if (inside) {
          return inside;
        }
      }
    }
    return null;
  }

  const fieldIn = (box) => [...(box?.querySelectorAll("input, select, textarea") ?? [])].find((f) => !f.disabled && f.offsetParent !== null);

  // After a row was added, removed or moved: where the work goes on.
  function focusRow(list, index, act) {
    const row = document.getElementById(`${list}/${index}`);
    if (act === "first") {
      // Somebody quick is in the new row already and types there.
      if (!row?.contains(document.activeElement)) {
        (fieldIn(row) ?? row)?.focus();
      }
      return;
    }
    if (act === "near") {
      const near = row ?? document.getElementById(`${list}/${index - 1}`) ?? document.querySelector(`[data-add="${list}"]`) ?? document.getElementById(list);
      (near ?? findField(list))?.focus();
      return;
    }
    const acts = row?.querySelector(":scope > .row-acts:last-of-type");
    const wanted = acts?.querySelector(`[data-act="${act}"]`);
    (wanted && !wanted.disabled ? wanted : acts?.querySelector("[data-act]:not(:disabled)"))?.focus();
  }

  function goTo(pointer) {
    const field = findField(pointer);
    if (!field) {
      return false;
    }
    for (let box = field.closest("details"); box; box = box.parentElement.closest("details")) {
      box.open = true;
    }
    field.focus();
    field.scrollIntoView({ block: "center" });
    return true;
  }

  document.addEventListener("input", onInput);
  document.addEventListener("change", onInput);
  document.addEventListener("click", onClickOffline, true);
  document.addEventListener("click", (event) => {
    const link = event.target.closest?.("a[data-field]");
    if (link && goTo(link.dataset.field)) {
      event.preventDefault();
      event.stopPropagation();
    }
  }, true);
  document.addEventListener("components-reconnect-state-changed", onConnection, true);
  window.addEventListener("offline", () => setOffline(true));
  window.addEventListener("online", () => {
    if (offline) {
      connect();
    }
  });

  window.preapprovalEditor = {
    // Returns what an earlier page kept and the draft does not hold.
    start(dotNet, draft, draftVersion) {
      reference = dotNet;
      key = prefix + draft;
      version = draftVersion;
      journal = load();
      const typed = Object.entries(journal.typed).map(([field, entry]) => ({ field, ...entry }));
      const kept = [...journal.kept.filter((k) => !typed.some((t) => t.field === k.field)), ...typed].filter((entry) => {
        const field = document.getElementById(entry.field);
        return !field || read(field) !== entry.value;
      });
      journal = { typed: {}, kept };
      store();
      if (location.hash.length > 1) {
        setTimeout(() => goTo(decodeURIComponent(location.hash.slice(1))), 100);
      }
      return kept.map(({ field, label, value, version: at }) => ({ field, label, value, version: at }));
    },
    saved(newVersion, upTo) {
      version = newVersion;
      for (const [field, entry] of Object.entries(journal.typed)) {
        if (entry.number <= upTo) {
          delete journal.typed[field];
        } else {
          entry.version = newVersion;
        }
      }
      store();
    },
    focusRow,
    // A live page without a journal: only the banner and the way back to the connection.
    watch(dotNet) {
      reference = dotNet;
    },
    offline: () => offline,
    putBack() {
      const entries = journal.kept;
      journal.kept = [];
      journal.kept = type(entries);
      store();
    },
    discard() {
      journal.kept = [];
      store();
    },
  };
})();
