/** The rooms of the workbench. A new room is one entry; only rooms that exist are shown. */
import type { FunctionComponent } from "preact";
import { lazyRoom } from "./lazy-room.tsx";
import { ResonanceRoom } from "./resonance-room.tsx";
import { ShapeRoom } from "./shape-room.tsx";

const BurstDoor = lazyRoom(async () => (await import("../burst/burst-room.tsx")).BurstRoom);
const DriverDoor = lazyRoom(async () => (await import("../driver/driver-room.tsx")).DriverRoom);
const BenchDoor = lazyRoom(async () => (await import("../bench/bench-room.tsx")).BenchRoom);
const ProgrammeDoor = lazyRoom(async () => (await import("../programme/programme-room.tsx")).ProgrammeRoom);
const StandoffDoor = lazyRoom(async () => (await import("../standoff/standoff-room.tsx")).StandoffRoom);
const PapersDoor = lazyRoom(async () => (await import("../papers/papers-room.tsx")).PapersRoom);

export interface Room {
  readonly id: string;
  readonly name: string;
  /** The question that the room answers. */
  readonly question: string;
  readonly View: FunctionComponent;
  /** Where the keyboard may go straight from the top; to the ledger where absent. */
  readonly skip?: { readonly to: string; readonly says: string };
}

export const rooms: readonly Room[] = [
  { id: "shape", name: "Shape", question: "What is it, to scale, and can it be built?", View: ShapeRoom },
  {
    id: "resonance",
    name: "Resonance",
    question: "Where does it ring, is it tuned, what moves the tune?",
    View: ResonanceRoom,
  },
  { id: "burst", name: "Burst", question: "What happens in one burst, and who pays for it?", View: BurstDoor },
  {
    id: "driver",
    name: "Driver",
    question: "Do supply, bridge, gate drive, feedback and trips hold?",
    View: DriverDoor,
  },
  {
    id: "bench",
    name: "Bench",
    question: "Does what I measured agree with what I drew?",
    View: BenchDoor,
    skip: { to: "bench-page", says: "Skip to the bench" },
  },
  {
    id: "programme",
    name: "Programme",
    question: "What may I play, and what will it do?",
    View: ProgrammeDoor,
    skip: { to: "programme-page", says: "Skip to the programme" },
  },
  {
    id: "standoff",
    name: "Stand-off",
    question: "Who must stand where, and what can still hurt?",
    View: StandoffDoor,
    skip: { to: "standoff-page", says: "Skip to stand-off" },
  },
  {
    id: "papers",
    name: "Papers",
    question: "What do I take to the bench?",
    View: PapersDoor,
    skip: { to: "papers-part", says: "Skip to the papers" },
  },
];
