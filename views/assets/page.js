"use strict";
// Everything works without this script; it only shows the progress of long work without reloading.
for (const place of document.querySelectorAll("[data-work]")) {
  const doing = place.querySelector("[data-doing]");
  const bar = place.querySelector("progress");
  const look = async () => {
    try {
      const answer = await fetch(place.dataset.work, { headers: { accept: "application/json" } });
      const { running, job } = await answer.json();
      if (!running) {
        const then = place.dataset.then;
        if (then) location.assign(then);
        else if (job) doing.textContent = job.state === "done" ? "A new answer is there: reload the page to read it" : job.doing;
        return;
      }
      if (job && doing.textContent !== job.doing) doing.textContent = job.doing;
      if (bar && job && job.share !== null) bar.value = job.share;
    } catch {
      // The next look may reach the program again.
    }
    setTimeout(look, 700);
  };
  setTimeout(look, 500);
}
