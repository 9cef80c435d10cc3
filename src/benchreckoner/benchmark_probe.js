// Times, inside the page, how long a picture takes to follow its slider.
// A picture counts as changed in the task after the animation frame that shows it.
(() => {
  const WAYS = {
    figure: { control: ".noUi-handle", see: (cell) => cell.querySelector(".jp-OutputArea-output img")?.src },
    label: { control: ".noUi-handle", see: (cell) => [...cell.querySelectorAll(".widget-label")].at(-1)?.textContent },
    live: { control: "input[type=range]", see: (cell) => cell.querySelector(".reckoner-drawing [id$='point-0'] use")?.getAttribute("x") },
  };
  const cells = () => [...document.querySelectorAll(".jp-Notebook .jp-CodeCell")];
  const cell = (way) => cells().find((node) => node.textContent.includes(`way: ${way}`));
  const setting = (node) => (node.matches("input") ? node.value : node.getAttribute("aria-valuenow"));

  // Call `heard(time)` after each frame in which the picture differs from the one before.
  function watch(way, heard) {
    const node = cell(way);
    let last = WAYS[way].see(node);
    const observer = new MutationObserver(async () => {
      const now = WAYS[way].see(node);
      if (!now || now === last) return;
      last = now;
      if (way === "figure") await node.querySelector(".jp-OutputArea-output img").decode().catch(() => {});
      requestAnimationFrame(() => {
        const { port1, port2 } = new MessageChannel();
        port1.onmessage = () => heard(performance.now());
        port2.postMessage(null);
      });
    });
    observer.observe(node, { subtree: true, childList: true, attributes: true, characterData: true });
    return () => observer.disconnect();
  }

  window.probe = {
    focus(way) {
      cell(way).scrollIntoView({ block: "center" });
      const control = cell(way).querySelector(WAYS[way].control);
      control.focus();
      const { left, top, width, height } = (control.matches("input") ? control : control.closest(".noUi-base")).getBoundingClientRect();
      const thumb = control.matches("input") ? 16 : 0;
      return { left: left + thumb / 2, width: width - thumb, middle: top + height / 2, setting: Number(setting(control)) };
    },
    // One step: resolves to milliseconds from the key event to the changed picture.
    arm(way) {
      let began = null;
      document.addEventListener("keydown", (event) => { began = event.timeStamp; }, { capture: true, once: true });
      window.result = new Promise((resolve, reject) => {
        const stop = watch(way, (time) => { stop(); resolve(time - began); });
        setTimeout(() => { stop(); reject(new Error(`${way}: no picture within 20 seconds`)); }, 20000);
      });
    },
    // A drag: resolves, once the pictures have stopped coming, to how late the last one was.
    record(way) {
      const control = cell(way).querySelector(WAYS[way].control);
      const pictures = [];
      let moved = null;
      let value = setting(control);
      const check = () => {
        if (setting(control) !== value) {
          value = setting(control);
          moved = performance.now();
        }
      };
      const observer = new MutationObserver(check);
      observer.observe(control, { attributes: true });
      control.addEventListener("input", check);
      const stop = watch(way, (time) => pictures.push(time));
      window.finish = async (quiet) => {
        while (performance.now() - Math.max(moved, pictures.at(-1) ?? 0) < quiet) await new Promise((done) => setTimeout(done, 50));
        stop();
        observer.disconnect();
        control.removeEventListener("input", check);
        const node = cell(way);
        const words = node.querySelector(".reckoner-sentence")?.textContent;
        return { late: pictures.at(-1) - moved, pictures: pictures.length,
          agrees: way !== "live" || words.includes(control.getAttribute("aria-valuetext")) };
      };
    },
  };
})();
