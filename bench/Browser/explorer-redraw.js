// Measures the explorer as a person sees it: from an input event at the slider of the set temperature to the first change of the pressure
// chart in the page, over the live connection. Open the explorer of a step with a closed vessel, paste this into the browser's console and
// wait; it writes the median, the 95th percentile and the longest of its redraws, in milliseconds.
(async (redraws = 100) => {
  const slider = document.getElementById("temperature-slide");
  const times = [];
  for (let i = 0; i < redraws; i++) {
    const value = Number(slider.min) + 30 + ((i * 7) % 60);
    const drawn = new Promise((resolve) => {
      const words = () => document.getElementById("chart-pressure-desc").textContent;
      const before = words();
      const observer = new MutationObserver(() => {
        if (words() !== before) {
          observer.disconnect();
          resolve(performance.now());
        }
      });
      observer.observe(document.getElementById("explorer"), { subtree: true, childList: true, characterData: true, attributes: true });
    });
    const from = performance.now();
    slider.value = String(value);
    slider.dispatchEvent(new Event("input", { bubbles: true }));
    times.push((await drawn) - from);
    await new Promise((resolve) => setTimeout(resolve, 150));
  }
  times.sort((a, b) => a - b);
  const at = (share) => Math.round(10 * times[Math.min(times.length - 1, Math.floor(share * times.length))]) / 10;
  const result = { redraws, median: at(0.5), p95: at(0.95), longest: at(1) };
  console.log(JSON.stringify(result));
  return result;
})();
