export { type FirmwareFile, firmwareOfSchedule, firmwareOfSerial, scheduleRoom } from "./firmware-files.ts";
export type { FirmwareSetting, HardLimits } from "./limits-header.ts";
