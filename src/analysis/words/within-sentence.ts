/** A name within a sentence; one that is all capitals stays. */
export const withinSentence = (name: string): string =>
  name.replace(/^[A-Z](?=[a-z])/, (letter) => letter.toLowerCase());
