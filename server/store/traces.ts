import type { Trace } from "../../src/logbook/steaming.ts";
import type { Connection } from "./connection.ts";
import type { Steamings } from "./steamings.ts";
import { decodeBlock, encodeBlock, samplesPerBlock } from "./trace-block.ts";

export type Channel = Trace["channel"];

/** A trace without its values. */
export interface TraceHead {
  seq: number;
  channel: Channel;
  startS: number;
  everyS: number;
  samples: number;
}

/** A stretch of a trace: its extremes are known without its values, which are decoded when asked for. */
export interface TraceStretch {
  /** index of its first sample in the trace */
  first: number;
  samples: number;
  lowest: number | null;
  highest: number | null;
  values: () => (number | null)[];
}

interface BlockRow {
  first: number;
  samples: number;
  lowest: number | null;
  highest: number | null;
  data: Buffer;
}

export function tracesIn(database: Connection, steamings: Steamings) {
  const heads = database.prepare<[string], TraceHead>(
    `SELECT seq, channel, start_s AS startS, every_s AS everyS, samples
     FROM traces WHERE steaming_id = ? ORDER BY seq`,
  );
  const insert = database.prepare<[string, Channel, number, number, number]>(
    "INSERT INTO traces (steaming_id, channel, start_s, every_s, samples) VALUES (?, ?, ?, ?, ?)",
  );
  const rehead = database.prepare<[number, number, number]>(
    "UPDATE traces SET start_s = ?, samples = ? WHERE seq = ?",
  );
  const insertBlock = database.prepare<[number, number, number, number | null, number | null, Buffer]>(
    "INSERT INTO trace_blocks (trace_seq, first, samples, lowest, highest, data) VALUES (?, ?, ?, ?, ?, ?)",
  );
  const removeBlocks = database.prepare<[number, number]>(
    "DELETE FROM trace_blocks WHERE trace_seq = ? AND first >= ?",
  );
  const blocks = database.prepare<[number, number, number], BlockRow>(
    `SELECT first, samples, lowest, highest, data FROM trace_blocks
     WHERE trace_seq = ? AND first + samples > ? AND first <= ? ORDER BY first`,
  );

  function writeBlocks(seq: number, from: number, values: readonly (number | null)[]): void {
    for (let first = 0; first < values.length; first += samplesPerBlock) {
      const block = encodeBlock(values.slice(first, first + samplesPerBlock));
      insertBlock.run(seq, from + first, block.samples, block.lowest, block.highest, block.data);
    }
  }

  /** The stretches of a trace that hold samples from index `from` to index `to`. */
  const stretches = (seq: number, from: number, to: number): TraceStretch[] =>
    blocks.all(seq, from, to).map(({ data, ...row }) => ({
      ...row,
      values: () => decodeBlock(data, row.samples),
    }));

  const valuesOf = (head: TraceHead): (number | null)[] =>
    stretches(head.seq, 0, head.samples).flatMap((stretch) => stretch.values());

  return {
    heads: (steamingId: string): TraceHead[] => heads.all(steamingId),
    stretches,
    valuesOf,
    /** The traces of a steaming, whole, in the order in which they came. */
    ofSteaming: (steamingId: string): Trace[] =>
      heads.all(steamingId).map((head) => ({
        channel: head.channel,
        startS: head.startS,
        everyS: head.everyS,
        values: valuesOf(head),
      })),
    add: database.transaction((steamingId: string, trace: Trace): void => {
      const { channel, startS, everyS, values } = trace;
      const { lastInsertRowid } = insert.run(steamingId, channel, startS, everyS, values.length);
      writeBlocks(Number(lastInsertRowid), 0, values);
      steamings.changed("traces-added", steamingId);
    }),
    /**
     * Puts other values in the place of a trace's own from sample `first` on, which begins a block;
     * its grid keeps its step.
     */
    rewrite: database.transaction(
      (
        steamingId: string,
        seq: number,
        to: { startS: number; samples: number; first: number },
        values: readonly (number | null)[],
      ): void => {
        removeBlocks.run(seq, to.first);
        rehead.run(to.startS, to.samples, seq);
        writeBlocks(seq, to.first, values);
        steamings.changed("traces-added", steamingId);
      },
    ),
  };
}
