import { Component, options, type VNode } from "preact";
import { useMemo } from "preact/hooks";
import { beginReading, endReading, type Reader, type Signal, signal } from "./signal.ts";

/** A component's reader, and whether something that it read has changed since it was drawn. */
interface Drawn extends Component {
  reads?: Reader & { changed: boolean };
}

/** As the hooks of preact name what they are told. */
interface Told {
  __c?: Drawn;
}
type Hook = ((vnode: VNode) => void) | undefined;
const told = options as { __r?: Hook; diffed?: Hook; unmount?: Hook };
const { __r: beforeDrawing, diffed: afterDrawing, unmount: beforeLeaving } = told;

let endDrawing: (() => void) | null = null;
function drawn(): void {
  endDrawing?.();
  endDrawing = null;
}

/** A component follows the signals that it reads while it is drawn. */
told.__r = (vnode) => {
  drawn();
  beforeDrawing?.(vnode);
  const component = (vnode as Told).__c;
  if (component === undefined) return;
  component.reads ??= {
    read: new Set(),
    changed: false,
    outdated: (due) => due.add(() => changed(component)),
  };
  component.reads.changed = false;
  endDrawing = beginReading(component.reads);
};

function changed(component: Drawn): void {
  if (component.reads) component.reads.changed = true;
  component.setState({});
}

told.diffed = (vnode) => {
  drawn();
  afterDrawing?.(vnode);
};

told.unmount = (vnode) => {
  const reads = (vnode as Told).__c?.reads;
  if (reads) endReading(reads);
  beforeLeaving?.(vnode);
};

/** What follows signals and was given the same as before is not drawn again with what stands around it. */
Component.prototype.shouldComponentUpdate = function (this: Drawn, given: object) {
  const { reads, props } = this;
  if (!reads || reads.changed || reads.read.size === 0) return true;
  const names = new Set([...Object.keys(given), ...Object.keys(props)]);
  return [...names].some((name) => given[name as never] !== props[name as never]);
};

/** A signal of one component's own. */
export const useSignal = <Value>(start: Value): Signal<Value> => useMemo(() => signal(start), []);
