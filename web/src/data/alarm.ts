// The bell of a clock: two struck tones, made by Web Audio, every two seconds until it is heard. A
// browser lets a page sound only after a touch; ready() is called from the touch that starts a
// clock. Where nothing may sound, the screen still rings, and a phone that can shakes.

export class Alarm {
  #context: AudioContext | undefined;
  #timer: ReturnType<typeof setInterval> | undefined;

  /** Called from a touch or a key, so that the browser lets it sound later. */
  ready(): void {
    if (typeof AudioContext === 'undefined') return;
    this.#context ??= new AudioContext();
    if (this.#context.state === 'suspended') void this.#context.resume().catch(() => undefined);
  }

  /** Whether the bell can be heard now: the page says so where it cannot. */
  get audible(): boolean {
    return this.#context?.state === 'running';
  }

  readonly ring = (on: boolean): void => {
    if (on === (this.#timer !== undefined)) return;
    if (!on) {
      clearInterval(this.#timer);
      this.#timer = undefined;
      return;
    }
    this.strike();
    this.#timer = setInterval(() => this.strike(), 2000);
  };

  /** Sounds once. */
  strike(): void {
    // Before a first touch a browser lets a page neither sound nor shake.
    if (navigator.userActivation?.hasBeenActive) navigator.vibrate?.([300, 150, 300]);
    const context = this.#context;
    if (context?.state !== 'running') return;
    // A struck bell: partials near 1, 2.76 and 5.4 times the lowest, the high ones dying sooner.
    for (const [start, pitch] of [
      [0, 880],
      [0.45, 660],
    ] as const) {
      for (const [part, loudness, dies] of [
        [1, 0.3, 1.1],
        [2.76, 0.12, 0.5],
        [5.4, 0.05, 0.25],
      ] as const) {
        const from = context.currentTime + start;
        const tone = context.createOscillator();
        const gain = context.createGain();
        tone.frequency.value = pitch * part;
        gain.gain.setValueAtTime(loudness, from);
        gain.gain.exponentialRampToValueAtTime(0.0001, from + dies);
        tone.connect(gain).connect(context.destination);
        tone.start(from);
        tone.stop(from + dies);
      }
    }
  }
}

export const alarm = new Alarm();
