import type { Fitting } from "../../src/logbook/locomotive.ts";
import type { Service } from "../../src/logbook/service.ts";

export const fittingKindNames: Record<Fitting["kind"], string> = {
  gland: "gland",
  clack: "clack",
  regulator: "regulator",
  "safety-valve": "safety valve",
  joint: "joint",
  "gauge-glass": "gauge glass",
  pump: "pump",
  lubricator: "lubricator",
  burner: "burner",
  other: "other",
};

export const serviceNames: Record<Service["what"], string> = {
  "nipped-up": "nipped up",
  repacked: "repacked",
  "re-seated": "re-seated",
  replaced: "replaced",
  cleaned: "cleaned",
};
