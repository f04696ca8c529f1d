/** The rooms of the workbench. A new room is one entry; only rooms that exist are shown. */
import type { FunctionComponent } from "preact";
import { BenchDoor } from "../bench/bench-door.tsx";
import { BurstRoom } from "../burst/burst-room.tsx";
import { DriverRoom } from "../driver/driver-room.tsx";
import { ResonanceRoom } from "./resonance-room.tsx";
import { ShapeRoom } from "./shape-room.tsx";

export interface Room {
  readonly id: string;
  readonly name: string;
  /** The question that the room answers. */
  readonly question: string;
  readonly View: FunctionComponent;
}

export const rooms: readonly Room[] = [
  { id: "shape", name: "Shape", question: "What is it, to scale, and can it be built?", View: ShapeRoom },
  {
    id: "resonance",
    name: "Resonance",
    question: "Where does it ring, is it tuned, what moves the tune?",
    View: ResonanceRoom,
  },
  { id: "burst", name: "Burst", question: "What happens in one burst, and who pays for it?", View: BurstRoom },
  {
    id: "driver",
    name: "Driver",
    question: "Do supply, bridge, gate drive, feedback and trips hold?",
    View: DriverRoom,
  },
  { id: "bench", name: "Bench", question: "Does what I measured agree with what I drew?", View: BenchDoor },
];
