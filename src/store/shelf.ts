/** Where things are kept: the browser's storage, or memory when the browser will not have it. */

/** What this program needs of a storage; `localStorage` has it. */
export interface Shelf {
  readonly length: number;
  key(index: number): string | null;
  getItem(key: string): string | null;
  setItem(key: string, value: string): void;
  removeItem(key: string): void;
}

/** A shelf that is forgotten when the page closes. */
export class MemoryShelf implements Shelf {
  private readonly items = new Map<string, string>();
  get length(): number {
    return this.items.size;
  }
  key(index: number): string | null {
    return [...this.items.keys()][index] ?? null;
  }
  getItem(key: string): string | null {
    return this.items.get(key) ?? null;
  }
  setItem(key: string, value: string): void {
    this.items.set(key, value);
  }
  removeItem(key: string): void {
    this.items.delete(key);
  }
}

/** The browser's own shelf if it can be written to; `lasting` says whether what is kept outlives the page. */
export function openShelf(browser: () => Shelf): { shelf: Shelf; lasting: boolean } {
  try {
    const shelf = browser();
    shelf.setItem('keydown/try', '1');
    shelf.removeItem('keydown/try');
    return { shelf, lasting: true };
  } catch {
    return { shelf: new MemoryShelf(), lasting: false };
  }
}

/** Every key that begins with `prefix`. */
export function keysOf(shelf: Shelf, prefix: string): string[] {
  const keys: string[] = [];
  for (let i = 0; i < shelf.length; i++) {
    const key = shelf.key(i);
    if (key?.startsWith(prefix)) keys.push(key);
  }
  return keys;
}
