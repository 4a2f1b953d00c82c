/** A sound that carries over a vacuum pump: full scale, pulsed, in the octave that the ear hears best. */

/** Hz; a pump hums below them. */
const TONES_HZ = [1000, 2800] as const;
const TONE_SECONDS = 0.25;
const PULSES = 6;

/** Puts one alarm on an audio context, square waves at full scale, from `at` on. */
export function soundAlarm(context: BaseAudioContext, at = context.currentTime): void {
  for (let pulse = 0; pulse < PULSES; pulse++) {
    const tone = context.createOscillator();
    tone.type = 'square';
    tone.frequency.value = TONES_HZ[pulse % TONES_HZ.length]!;
    tone.connect(context.destination);
    const start = at + pulse * TONE_SECONDS;
    tone.start(start);
    tone.stop(start + TONE_SECONDS * 0.9);
  }
}

/** The loudspeaker: silent until somebody has pressed a key, as browsers want it. */
export class Speaker {
  #context: AudioContext | null = null;

  /** Called from a key or a press. */
  unlock(): void {
    this.#context ??= new AudioContext();
    if (this.#context.state === 'suspended') void this.#context.resume();
  }

  get ready(): boolean {
    return this.#context?.state === 'running';
  }

  /** @returns false where no sound may be made yet */
  alarm(): boolean {
    if (!this.#context || !this.ready) return false;
    soundAlarm(this.#context);
    return true;
  }

  close(): void {
    void this.#context?.close();
    this.#context = null;
  }
}
