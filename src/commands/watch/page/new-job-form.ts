import type { NewJob } from "../bench-messages.ts";
import { postNewJob } from "./connection.ts";
import { element } from "./element.ts";

/** The form of a new job; what the shop does not state is asked for once. `opened` receives the path of the job written. */
export function createNewJobForm(opened: (path: string) => void): void {
  const form = element<HTMLFormElement>("new-form");
  const said = element("new-said");
  const show = (id: string, is: boolean) => {
    element(id).hidden = !is;
    for (const field of element(id).querySelectorAll<HTMLInputElement>("input, select")) field.disabled = !is;
  };
  element("new-job").addEventListener("toggle", () => {
    const date = form.elements.namedItem("issued") as HTMLInputElement;
    const now = new Date();
    const parts = [now.getFullYear(), now.getMonth() + 1, now.getDate()].map((part) => String(part).padStart(2, "0"));
    date.value ||= parts.join("-");
  });
  form.addEventListener("submit", async (event) => {
    event.preventDefault();
    const answer = await postNewJob(Object.fromEntries(new FormData(form)) as unknown as NewJob);
    said.textContent =
      answer === undefined
        ? "The program does not answer: nothing was written."
        : answer.kind === "refused"
          ? answer.why
          : answer.kind === "ask"
            ? "Your shop does not say this: choose once for this job."
            : "";
    if (answer?.kind === "ask") {
      if (answer.units) show("new-units", true);
      if (answer.pressure) show("new-pressure", true);
    }
    if (answer?.kind !== "made") return;
    form.reset();
    opened(answer.path);
  });
}
