/** The colours and weights that the page has at this moment. */
export interface Ink {
  of(token: string): string;
  faint(token: string): string;
  lineWidth: number;
  font(weight?: number): string;
}

export const fontFamily = '"Atkinson Hyperlegible Next Variable", "Atkinson Hyperlegible Next", sans-serif';

export function currentInk(): Ink {
  const style = getComputedStyle(document.documentElement);
  const of = (token: string) => style.getPropertyValue(`--${token}`).trim();
  return {
    of,
    faint: (token) => `${of(token)}38`,
    lineWidth: Number(of("line")),
    font: (weight = Number(of("weight-label"))) => `${weight} 14px ${fontFamily}`,
  };
}
