/** Words as a sentence begins. */
export const capital = (words: string): string => words.replace(/^./, (letter) => letter.toUpperCase());
