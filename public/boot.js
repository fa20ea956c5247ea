// Starts the page. A classic script at the head of the document, so that the theme stands before the first paint and the
// program's download begins while the rest of the document is still being read. No inline script exists anywhere: the
// Content-Security-Policy forbids it.
"use strict";
(() => {
  // The build replaces the next line. As it stands it fits Trunk's development server: plain names, no offline copy.
  const PARTS = { glue: "./hundred-parts.js", wasm: "./hundred-parts_bg.wasm", integrity: "", worker: "" };

  const root = document.documentElement;
  const here = document.baseURI;
  const at = (path) => new URL(path, here).href;

  guardMarkup();
  // In a task of its own: right after this event browsers look through all forms, and laying them out one by one for that
  // took longer than making them.
  const ready = new Promise((done) => {
    if (document.readyState === "loading") document.addEventListener("DOMContentLoaded", () => setTimeout(done), { once: true });
    else done();
  });
  ready.then(() => document.querySelectorAll('link[media="not all"]').forEach((sheet) => { sheet.media = "all"; }));
  // Asked for while the program is on its way: the first number that is written as the locale wants it takes a browser long.
  ready.then(() => setTimeout(() => { root.dataset.decimal = (1.5).toLocaleString(); }));
  start().catch((error) => ready.then(() => showCrash(error)));
  // After `load`: neither the face nor the offline copy may compete with the first paint.
  const later = (call) => document.readyState === "complete" ? call() : addEventListener("load", call, { once: true });
  later(showFace);
  if (PARTS.worker && "serviceWorker" in navigator) later(keepOffline);

  // The views are built from templates known at compile time; whatever else would become markup or a script is refused.
  function guardMarkup() {
    if (!window.trustedTypes) return;
    // A handler is an `on…=` inside a tag: after `<` or after a quoted value, with no tag end between.
    const unsafe = /<script|javascript:|[<"'][^<>]*[\s"'/]on[a-z]+\s*=/i;
    window.trustedTypes.createPolicy("default", {
      createHTML(markup) {
        if (unsafe.test(markup)) throw new TypeError("markup with a script in it was refused");
        return markup;
      },
      createScriptURL(url) {
        if (PARTS.worker && at(url) === at(PARTS.worker)) return url;
        throw new TypeError("a script address was refused");
      },
      createScript() {
        throw new TypeError("a script made from text was refused");
      },
    });
  }

  // Without it the page stands in a face of the device.
  function showFace() {
    const face = new FontFace("Hundred", `url("${at("./face/hundred.woff2")}")`, { weight: "400 700" });
    face.load().then(() => document.fonts.add(face), () => { /* said by nothing: it is only a face */ });
  }

  async function start() {
    // Over plain http on a local network browsers offer no digests: there it is left to them to check the program. Else it
    // is asked for just as the page's preload link has asked for it, so that it comes once.
    const checkable = Boolean(window.crypto?.subtle);
    const options = PARTS.integrity && !checkable ? { integrity: PARTS.integrity } : { credentials: "same-origin" };
    const program = fetch(at(PARTS.wasm), options).then((response) => {
      if (!response.ok) throw new Error(`${PARTS.wasm}: the server answered ${response.status}`);
      return compiled(response, checkable && PARTS.integrity);
    }, (error) => {
      throw new Error(`${PARTS.wasm} could not be fetched, or is not the file that was published (${error.message})`);
    });
    program.catch(() => { /* reported below, once the glue has arrived too */ });
    const glue = await import(at(PARTS.glue)).catch((error) => {
      throw new Error(`${PARTS.glue} could not be fetched (${error.message})`);
    });
    await ready;
    const module = await program;
    await painted();
    await glue.default({ module_or_path: module });
    root.dataset.booted = "true";
  }

  // The frame is seen before the program starts: that holds the page up for a while. A page in the background paints nothing.
  function painted() {
    return new Promise((done) => {
      requestAnimationFrame(() => setTimeout(done));
      setTimeout(done, 100);
    });
  }

  // Compiled while it arrives, and used only if it is the file that was published. The `integrity` of `fetch` would hold
  // back every byte until the last one is there, and that of a preload link is ignored.
  async function compiled(response, expected) {
    const whole = response.clone().arrayBuffer();
    // A server may send it as something else: then it is compiled once it is there, with an error that says what is wrong.
    const streamed = WebAssembly.compileStreaming(response).catch((error) => {
      console.warn(`not compiled while it arrived: ${error.message}`);
      return null;
    });
    const bytes = await whole;
    if (expected) {
      const digest = new Uint8Array(await crypto.subtle.digest("SHA-384", bytes));
      if (`sha384-${btoa(String.fromCharCode(...digest))}` !== expected) {
        throw new Error(`${PARTS.wasm} is not the file that was published`);
      }
    }
    return (await streamed) ?? WebAssembly.compile(bytes);
  }

  // Plain DOM and text nodes only: this must work when nothing else does.
  function showCrash(error, running) {
    const card = document.getElementById("crash");
    if (!card || !card.hidden) return;
    const unsaved = running ? rescue() : null;
    if (running) stopWriting();
    const set = (id, text) => {
      const element = document.getElementById(id);
      if (element) element.textContent = text;
    };
    root.dataset.booted = "false";
    if (running) set("crash-title", "Hundred Parts has stopped");
    set("crash-what", running ? `Something in the program went wrong. ${whatIsKept(unsaved)}` : whatFailed(error));
    set("crash-todo", navigator.onLine
      ? "Try again. If that does not help, download the program again."
      : "You are offline. Try again anyway; if that does not help, try once more when you have a connection.");
    set("crash-detail", `${error}\n${navigator.userAgent}\n${new Date().toISOString()}`);
    document.getElementById("crash-again")?.addEventListener("click", () => location.reload());
    document.getElementById("crash-fresh")?.addEventListener("click", fetchAnew);
    document.getElementById("crash-data")?.addEventListener("click", () => downloadStored(unsaved?.text));
    document.getElementById("app")?.setAttribute("hidden", "");
    card.hidden = false;
  }

  // What was typed and is not stored yet is brought into the quick copy first, if the program can still tell it.
  function rescue() {
    try {
      const [kept, text] = window.hpRescue?.() ?? [];
      return text ? { kept, text } : null;
    } catch {
      return { kept: false, text: "" };
    }
  }

  function whatIsKept(unsaved) {
    if (!unsaved) return "All that the page had was stored. It has stopped saving.";
    if (unsaved.kept) return "What was typed last is kept: \u201cTry again\u201d opens with it. The page has stopped saving.";
    return unsaved.text
      ? "There was no room for what was typed after the last \u201cSaved\u201d: it is in the download. The page has stopped saving."
      : "What was typed after the last \u201cSaved\u201d may be lost. The page has stopped saving.";
  }

  function whatFailed(error) {
    if (typeof WebAssembly !== "object") return "This browser cannot run the program: WebAssembly is missing or switched off.";
    if (error instanceof WebAssembly.RuntimeError) return "The program stopped while it was starting.";
    if (error instanceof WebAssembly.CompileError) return "The program arrived damaged, or this browser is too old for it.";
    return "Part of the program did not arrive complete.";
  }

  // The program calls this when it panics. A fault below it, such as memory that ran out, comes as an error of the window;
  // and so does what it throws itself where the browser refuses something that it cannot go on without.
  window.hpCrash = (message) => showCrash(new Error(message), true);
  const trapped = (error, thrown) => {
    const ended = error instanceof WebAssembly.RuntimeError || (thrown && /\.wasm\b/.test(error?.stack ?? ""));
    if (ended && root.dataset.booted) showCrash(error, true);
  };
  addEventListener("error", (event) => trapped(event.error, true));
  addEventListener("unhandledrejection", (event) => trapped(event.reason, false));

  // Whatever the program still tries: its memory cannot be trusted any more.
  function stopWriting() {
    const refuse = () => { throw new Error("the program has stopped"); };
    for (const name of ["put", "add", "delete", "clear"]) IDBObjectStore.prototype[name] = refuse;
    for (const name of ["setItem", "removeItem", "clear"]) Storage.prototype[name] = refuse;
  }

  // Everything that is stored, as it is, without the program: for whoever can read it when the program cannot.
  async function downloadStored(unsaved) {
    const all = { note: "What Hundred Parts has stored, as it is", unsaved: unsaved && JSON.parse(unsaved), journal: {} };
    try {
      all.local = { ...localStorage };
    } catch (error) {
      all.local = `could not be read: ${error.message}`;
    }
    try {
      const opening = indexedDB.open("hundred-parts");
      // Opening makes an empty journal where there is none, in which the program would not find its stores.
      opening.onupgradeneeded = () => opening.transaction.abort();
      const database = await request(opening);
      for (const name of database.objectStoreNames) {
        const store = database.transaction(name).objectStore(name);
        const [keys, values] = await Promise.all([request(store.getAllKeys()), request(store.getAll())]);
        all.journal[name] = keys.map((key, n) => [key, values[n]]);
      }
      database.close();
    } catch (error) {
      all.journal = `could not be read: ${error.message}`;
    }
    const link = document.createElement("a");
    link.href = URL.createObjectURL(new Blob([JSON.stringify(all, null, 1)], { type: "application/json" }));
    link.download = "hundred-parts-stored.json";
    link.click();
    URL.revokeObjectURL(link.href);
  }

  const request = (asked) => new Promise((done, failed) => {
    asked.onsuccess = () => done(asked.result);
    asked.onerror = () => failed(asked.error);
  });

  // Drops the offline copy of the program, never the maker's data, and only once the server has been seen to answer.
  async function fetchAnew() {
    try {
      const answer = await fetch(at(`./?fresh=${Date.now()}`), { cache: "no-store" });
      if (!answer.ok) throw new Error(`the server answered ${answer.status}`);
      const scope = at("./");
      const keys = window.caches ? await caches.keys() : [];
      await Promise.all(keys.filter((key) => key.startsWith(`hp ${scope} `)).map((key) => caches.delete(key)));
      const registration = await navigator.serviceWorker?.getRegistration(scope);
      await registration?.unregister();
      location.reload();
    } catch (error) {
      const todo = document.getElementById("crash-todo");
      if (todo) todo.textContent = `The program cannot be downloaded now (${error.message}). The copy on this device was kept.`;
    }
  }

  // The sentences that the new release has and this one has not. A query passes by the copy of this release.
  async function whatChanged() {
    const list = async (asked) => {
      try {
        const answer = await asked;
        return answer.ok ? (await answer.json()).changes : [];
      } catch {
        return [];
      }
    };
    const address = at("./changes.json");
    const [theirs, ours] = await Promise.all([
      list(fetch(`${address}?seen=${Date.now()}`, { cache: "no-cache" })),
      // A page that came from the network itself has no worker yet that would answer from the copy.
      list(navigator.serviceWorker.controller ? fetch(address) : caches.match(address)),
    ]);
    return theirs.filter((text) => !ours.includes(text)).slice(0, 8).join("\n");
  }

  // Tells the page two things, each as an event and, for a page that listens later, as an attribute of the root element:
  // `hp-offline-ready` (data-offline="ready") and `hp-update-ready` (data-update="ready").
  async function keepOffline() {
    const tell = async (what) => {
      if (what === "update") root.dataset.changes = await whatChanged();
      root.dataset[what] = "ready";
      dispatchEvent(new Event(`hp-${what}-ready`));
    };
    const updateNow = (worker) => new Promise((done) => {
      // Only the tab that asked reloads; the others keep the version that they run.
      worker.addEventListener("statechange", () => {
        if (worker.state === "activated") done(location.reload());
      });
      worker.postMessage("SKIP_WAITING");
    });
    let registration;
    try {
      registration = await navigator.serviceWorker.register(at(PARTS.worker), { updateViaCache: "none" });
    } catch (error) {
      console.warn(`no offline copy: ${error.message}`);
      return;
    }
    // Another tab may have taken it already: then a reload is all that is missing.
    window.hpUpdate = async () => registration.waiting ? updateNow(registration.waiting) : location.reload();

    // A worker is installed only when every file of its list arrived with the right hash: 'activated' says so.
    const watched = new WeakSet();
    const watch = (worker) => {
      if (!worker || watched.has(worker)) return;
      watched.add(worker);
      const first = !registration.active;
      const look = () => {
        if (worker.state === "installed" && !first) tell("update");
        if (worker.state === "activated" && first) tell("offline");
      };
      worker.addEventListener("statechange", look);
      look();
    };
    if (registration.active) root.dataset.offline = "ready";
    if (registration.waiting && registration.active) tell("update");
    watch(registration.installing);
    registration.addEventListener("updatefound", () => watch(registration.installing));

    // A tablet beside the stove stays on one page for days, and browsers look for a new version only at a navigation.
    let looked = Date.now();
    const lookAgain = () => {
      if (document.hidden || Date.now() - looked < 3_600_000) return;
      looked = Date.now();
      registration.update().catch(() => { /* offline: next time */ });
    };
    document.addEventListener("visibilitychange", lookAgain);
    addEventListener("online", lookAgain);
  }
})();
