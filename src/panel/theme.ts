/** The inks of the theme that the document wears. */
import { CONTRAST, NIGHT, PAPER, type Palette } from './kit/palette.ts';

/** Palette by `data-theme` of the root element; paper for anything else. */
export const themeOf = (): Palette => {
  const name = document.documentElement.dataset['theme'];
  return name === 'night' ? NIGHT : name === 'contrast' ? CONTRAST : PAPER;
};
