/** Bytes of requests that are being read or worked on at the same time: four of the largest. */
const MOST = 256_000_000;

/** Counts what requests hold in memory, so that many large ones at once do not fill it. */
export class InHand {
  private bytes = 0;

  /** Takes room for a body; undefined when there is none. The room is given back by what is returned. */
  take(bytes: number): (() => void) | undefined {
    if (this.bytes + bytes > MOST) return undefined;
    this.bytes += bytes;
    let held = true;
    return () => {
      if (held) this.bytes -= bytes;
      held = false;
    };
  }
}
