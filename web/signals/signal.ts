/** A value that is followed by whoever reads it. */
export interface Signal<Value> {
  value: Value;
  /** the value, followed by nobody */
  peek: () => Value;
}

export type ReadonlySignal<Value> = Readonly<Signal<Value>>;

/** Whoever reads. When what it read stands no more, it puts what there is to do into `due`. */
export interface Reader {
  read: Set<Source>;
  outdated: (due: Set<() => void>) => void;
}

interface Source {
  readers: Set<Reader>;
  /** the last reader has left */
  unread?: () => void;
}

let reading: Reader | null = null;

/** All that is read until the returned function is called is read by this reader. What it read before, and no more, it leaves. */
export function beginReading(by: Reader): () => void {
  const [outer, before] = [reading, by.read];
  reading = by;
  by.read = new Set();
  return () => {
    reading = outer;
    leave(by, before);
  };
}

/** A reader that is no more. */
export const endReading = (by: Reader): void => beginReading(by)();

function leave(by: Reader, sources: ReadonlySet<Source>): void {
  for (const source of sources) {
    if (by.read.has(source)) continue;
    source.readers.delete(by);
    if (source.readers.size === 0) source.unread?.();
  }
}

function readBy<Value>(by: Reader, what: () => Value): Value {
  const end = beginReading(by);
  try {
    return what();
  } finally {
    end();
  }
}

function read(source: Source): void {
  if (reading === null) return;
  reading.read.add(source);
  source.readers.add(reading);
}

const outdate = ({ readers }: Source, due: Set<() => void>): void => {
  for (const each of readers) each.outdated(due);
};

export function signal<Value>(held: Value): Signal<Value> {
  const source: Source = { readers: new Set() };
  return {
    get value() {
      read(source);
      return held;
    },
    set value(next) {
      if (next === held) return;
      held = next;
      // all that hangs on it is outdated before the first is told: nobody sees half of a change
      const due = new Set<() => void>();
      outdate(source, due);
      for (const tell of due) tell();
    },
    peek: () => held,
  };
}

/** Worked out when it is read, and not again before something that it was worked out from has changed. */
export function computed<Value>(reckon: () => Value): ReadonlySignal<Value> {
  let known: { value: Value } | null = null;
  const by: Reader = {
    read: new Set(),
    outdated: (due) => {
      known = null;
      outdate(source, due);
    },
  };
  const source: Source = {
    readers: new Set(),
    // unread, it follows nothing
    unread: () => {
      known = null;
      endReading(by);
    },
  };
  const peek = () => {
    if (known !== null) return known.value;
    const value = readBy(by, reckon);
    if (source.readers.size > 0) known = { value };
    else endReading(by);
    return value;
  };
  return {
    get value() {
      read(source);
      return peek();
    },
    peek,
  };
}

/** Done now, and again whenever something that it reads has changed. @returns ends it */
export function effect(what: () => void): () => void {
  const act = () => readBy(by, what);
  const by: Reader = { read: new Set(), outdated: (due) => due.add(act) };
  act();
  return () => endReading(by);
}
