/** Tones of a verdict: frequency [Hz], length [ms], and how often. */
const TONES = { on: [880, 60, 1], off: [330, 120, 2], impossible: [220, 300, 1] } as const;

/** Plays tones once they are switched on. */
export function createSound(button: HTMLButtonElement): (tone: keyof typeof TONES) => void {
  let audio: AudioContext | undefined;
  button.addEventListener("click", () => {
    const on = button.ariaPressed !== "true";
    button.ariaPressed = String(on);
    button.textContent = on ? "Sound on" : "Sound off";
    if (on) audio ??= new AudioContext();
  });
  return (tone) => {
    if (button.ariaPressed !== "true" || !audio) return;
    const [frequency, length, times] = TONES[tone];
    for (let at = 0; at < times; at++) {
      const source = audio.createOscillator();
      source.frequency.value = frequency;
      source.connect(audio.destination);
      source.start(audio.currentTime + (at * 2 * length) / 1000);
      source.stop(audio.currentTime + ((at * 2 + 1) * length) / 1000);
    }
  };
}
