import { expect, test } from "vitest";
import { onceMore, reopening } from "../../../web/outbox/reopening.ts";

/** A store that opens as often as it is asked; the first `failing` times it does not. */
function store(failing: number) {
  let opened = 0;
  let lose: () => void = () => undefined;
  const open = reopening(async (lost) => {
    lose = lost;
    opened++;
    if (opened <= failing) throw new Error("denied");
    return `store ${opened}`;
  });
  return { open, lose: () => lose(), opened: () => opened };
}

test("a store is opened once, however often it is asked for", async () => {
  const { open, opened } = store(0);
  expect(await Promise.all([open(), open()])).toEqual(["store 1", "store 1"]);
  expect(opened()).toBe(1);
});

test("a store that could not be opened is opened anew at the next call", async () => {
  const { open } = store(1);
  await expect(open()).rejects.toThrow("denied");
  expect(await open()).toBe("store 2");
});

test("a store that the browser took away is opened anew at the next call, and an older one's end takes nothing from a newer", async () => {
  const { open, lose } = store(0);
  await open();
  const loseFirst = lose;
  loseFirst();
  expect(await open()).toBe("store 2");
  expect(await open()).toBe("store 2");
  lose();
  expect(await open()).toBe("store 3");
});

test("a store that is found not to answer is opened anew when it is forgotten", async () => {
  const { open } = store(0);
  expect(await open()).toBe("store 1");
  open.forget();
  expect(await open()).toBe("store 2");
});

test("what fails is done once more, and no more than that", async () => {
  let tries = 0;
  expect(
    await onceMore(async (again) => {
      tries++;
      if (!again) throw new Error("closing");
      return "done";
    }),
  ).toBe("done");
  expect(tries).toBe(2);
  await expect(
    onceMore(async () => {
      tries++;
      throw new Error("full");
    }),
  ).rejects.toThrow("full");
  expect(tries).toBe(4);
});
