"use strict";
// Everything works without this script; it only shows the progress of long work without reloading.
for (const place of document.querySelectorAll("[data-work]")) {
  const doing = place.querySelector("[data-doing]");
  const bar = place.querySelector("progress");
  const look = async () => {
    try {
      const answer = await fetch(place.dataset.work, { headers: { accept: "application/json" } });
      const { running, job } = await answer.json();
      // A page without an answer has nothing to lose: it is read anew as soon as there is one.
      if (place.dataset.until === "first-answer" && job && (job.done > 0 || job.state === "done")) {
        location.reload();
        return;
      }
      // The answer is there and only its two-day plan is still at work: who waited for the answer may read it.
      if (place.dataset.done === "0" && job && job.done > 0 && job.tasks[job.done] === "two-day") {
        location.assign(place.dataset.then);
        return;
      }
      // A curve that grew is drawn by the program, so its page is read anew.
      if (running && place.dataset.points !== undefined && job && String(job.curvePoints) !== place.dataset.points) {
        location.reload();
        return;
      }
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
