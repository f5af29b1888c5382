/** Prowords: fixed words of a voice transmission and what they mean, in our words. ACP 125 (from memory); the Morse signs ACP 124 (from memory). */

/** A proword, its meaning, and its sign in Morse and on a printer, if it has one. */
export type Proword = { words: string; means: string; sign?: string };

/** The prowords that this program knows; a longer one before a shorter one that it begins with. */
export const PROWORDS: readonly Proword[] = [
  { words: 'THIS IS', means: 'the call sign of the speaker follows', sign: 'DE' },
  { words: 'OVER', means: 'I have ended and expect your answer', sign: 'K' },
  { words: 'OUT', means: 'I have ended and expect no answer', sign: 'AR' },
  { words: 'ROGER', means: 'I have received all of your last transmission', sign: 'R' },
  { words: 'WILCO', means: 'received, understood, will be done; never together with ROGER' },
  { words: 'I SAY AGAIN', means: 'I repeat what you asked for', sign: 'IMI' },
  { words: 'SAY AGAIN', means: 'repeat your transmission, or the part named', sign: 'IMI' },
  { words: 'ALL AFTER', means: 'the part after the word that follows', sign: 'AA' },
  { words: 'ALL BEFORE', means: 'the part before the word that follows', sign: 'AB' },
  { words: 'WORD AFTER', means: 'the one word after the word that follows', sign: 'WA' },
  { words: 'WORD BEFORE', means: 'the one word before the word that follows', sign: 'WB' },
  { words: 'I AUTHENTICATE', means: 'my reply to your challenge follows' },
  { words: 'AUTHENTICATE', means: 'a challenge follows; reply from the card' },
  { words: 'I READ BACK', means: 'I repeat your message to you as you asked' },
  { words: 'READ BACK', means: 'repeat my message to me exactly', sign: 'G' },
  { words: 'THAT IS CORRECT', means: 'you have it right', sign: 'C' },
  { words: 'WRONG', means: 'you have it wrong; the right version follows' },
  { words: 'CORRECTION', means: 'I made an error; the right version follows', sign: 'EEEEEEEE' },
  { words: 'DISREGARD THIS TRANSMISSION', means: 'take no notice of what I have just begun' },
  { words: 'I SPELL', means: 'the next word is spelled' },
  { words: 'FIGURES', means: 'figures follow' },
  { words: 'WORDS TWICE', means: 'send each phrase twice, or I shall' },
  { words: 'WAIT OUT', means: 'I must pause for longer and shall call you', sign: 'AS AR' },
  { words: 'WAIT', means: 'I must pause for a few seconds', sign: 'AS' },
  { words: 'BREAK', means: 'here the text is parted from the rest', sign: 'BT' },
  { words: 'MORE TO FOLLOW', means: 'I have more for you', sign: 'B' },
  { words: 'MESSAGE', means: 'a message to be written down follows' },
  { words: 'SEND', means: 'go ahead with what you have' },
  { words: 'NUMBER', means: 'the number of the message follows', sign: 'NR' },
  { words: 'GROUPS', means: 'so many groups are in the text', sign: 'GR' },
  { words: 'RELAY TO', means: 'pass this on to the station that follows', sign: 'T' },
  { words: 'RADIO CHECK', means: 'how strong and how clear am I?', sign: 'INT QRK' },
  { words: 'NOTHING HEARD', means: 'the station called does not answer' },
  { words: 'STATION CALLING', means: 'whoever called; I did not make out who' },
  { words: 'SPEAK SLOWER', means: 'you are too fast for me' },
  { words: 'FLASH', means: 'the most urgent precedence', sign: 'Z' },
  { words: 'IMMEDIATE', means: 'the second precedence', sign: 'O' },
  { words: 'PRIORITY', means: 'the third precedence', sign: 'P' },
  { words: 'ROUTINE', means: 'the lowest precedence', sign: 'R' },
];

/** Strength and readability as one says them (ACP 125, from memory), by the speech's signal-to-noise ratio in dB; the limits are ours. */
export function reportOf(snr_dB: number): string {
  if (snr_dB >= 25) return 'LOUD AND CLEAR';
  if (snr_dB >= 15) return 'GOOD AND READABLE';
  return snr_dB >= 6 ? 'WEAK BUT READABLE' : 'WEAK AND UNREADABLE';
}
