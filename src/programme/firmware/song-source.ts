/** The parts of the firmware that want pulses: a stored schedule, or MIDI that comes over the serial line. */

export const mainSource = `/* Sets up, then offers pulses for ever. Every cause of silence leads through pulse_silence(). */
#include <avr/interrupt.h>
#include <avr/io.h>
#include <avr/wdt.h>

#include "limits.h"
#include "player.h"
#include "pulse.h"

int main(void) {
  MCUSR = 0; /* a watchdog reset would otherwise keep the watchdog at its shortest */
  wdt_enable(WDTO_15MS);
  pulse_setup();
  player_setup();
  sei();
  for (;;) {
    wdt_reset();
    pulse_keep();
    player_keep();
#ifdef STALL_AFTER_TICKS /* for the test of the watchdog */
    if (pulse_now() > STALL_AFTER_TICKS) {
      for (;;) {
      }
    }
#endif
  }
}
`;

export const playerHeader = `/* Whoever wants pulses. */
#ifndef PLAYER_H
#define PLAYER_H

void player_setup(void);
/* To be called from the main loop: offers what is due soon, without waiting. */
void player_keep(void);

#endif
`;

export const storedPlayerSource = `/* Plays the stored schedule once for each closing of the key.
 * The schedule is a list of runs. A run is a start, a count, a period and an on-time; several runs may sound together. */
#include <avr/pgmspace.h>

#include "limits.h"
#include "player.h"
#include "pulse.h"
#include "schedule.h"

struct run {
  ticks_t next;      /* start of its next pulse */
  uint32_t period;   /* in 1/4096 ticks */
  uint16_t left;     /* pulses still to come */
  uint16_t on;
  uint16_t fraction; /* of next, in 1/4096 ticks */
};

static struct run runs[RUNS_AT_ONCE];
static uint16_t read_at;
static ticks_t next_run_start;
static uint16_t runs_unread;
static bool playing, played;

static uint32_t read_number(void) {
  uint32_t number = 0;
  for (uint8_t shift = 0; shift < 35; shift = (uint8_t)(shift + 7)) {
    uint8_t part = pgm_read_byte(&schedule[read_at++]);
    number |= (uint32_t)(part & 0x7f) << shift;
    if (!(part & 0x80)) break;
  }
  return number;
}

static void begin(void) {
  for (uint8_t i = 0; i < RUNS_AT_ONCE; i++) runs[i].left = 0;
  read_at = 0;
  runs_unread = SCHEDULE_RUNS;
  next_run_start = pulse_now() + TICKS_PER_SECOND / 10;
  if (runs_unread > 0) next_run_start += read_number();
  playing = true;
}

static void read_run(struct run *run) {
  run->next = next_run_start;
  run->fraction = 2048;
  run->left = (uint16_t)read_number();
  run->on = (uint16_t)read_number();
  run->period = run->left > 1 ? read_number() : 0;
  runs_unread--;
  if (runs_unread > 0) next_run_start += read_number();
}

/* The run whose pulse comes first, or none. */
static struct run *first_run(void) {
  struct run *first = 0;
  struct run *idle = 0;
  for (uint8_t i = 0; i < RUNS_AT_ONCE; i++) {
    struct run *run = &runs[i];
    if (run->left == 0) {
      idle = run;
    } else if (!first || (int32_t)(run->next - first->next) < 0) {
      first = run;
    }
  }
  if (runs_unread > 0 && idle && (!first || (int32_t)(next_run_start - first->next) <= 0)) {
    read_run(idle);
    return idle;
  }
  return first;
}

void player_setup(void) { playing = played = false; }

void player_keep(void) {
  if (!pulse_key_closed()) {
    playing = played = false;
    return;
  }
  if (!playing && !played) begin();
  if (!playing) return;
  struct run *run = first_run();
  if (!run) {
    playing = false;
    played = true;
    return;
  }
  if (!pulse_offer(run->next, run->on)) return;
  uint32_t step = run->period + run->fraction;
  run->next += step >> 12;
  run->fraction = (uint16_t)(step & 0xfff);
  run->left--;
}
`;

export const serialPlayerSource = `/* Follows MIDI on the serial line: note on, note off, channel volume, all sound off.
 * The heartbeat is MIDI's active sensing: while it is not heard, nothing sounds. */
#include <avr/interrupt.h>
#include <avr/io.h>
#include <avr/pgmspace.h>

#include "limits.h"
#include "notes.h"
#include "player.h"
#include "pulse.h"

#define RECEIVED_SIZE 64 /* power of two */

struct voice {
  uint32_t period;  /* in 1/4096 ticks; 0 where silent */
  ticks_t next;
  ticks_t since;
  uint16_t on;
  uint16_t fraction;
  uint8_t channel, key;
};

static struct voice voices[VOICES];
static uint8_t volume[16];
static volatile uint8_t received[RECEIVED_SIZE];
static volatile uint8_t received_first, received_count;
static volatile bool overrun;
static bool alive;
static ticks_t heard;
static uint8_t status_byte, first_data;
static bool have_first;

ISR(USART_RX_vect) {
  uint8_t errors = UCSR0A & (_BV(FE0) | _BV(DOR0));
  uint8_t byte = UDR0;
  if (errors || received_count == RECEIVED_SIZE) {
    overrun = true;
    return;
  }
  received[(received_first + received_count) & (RECEIVED_SIZE - 1)] = byte;
  received_count++;
}

static void all_off(void) {
  for (uint8_t i = 0; i < VOICES; i++) voices[i].period = 0;
  pulse_silence();
}

void player_setup(void) {
  for (uint8_t i = 0; i < 16; i++) volume[i] = 100;
  UBRR0 = F_CPU / 16 / SERIAL_BAUD - 1;
  UCSR0C = _BV(UCSZ01) | _BV(UCSZ00);
  UCSR0B = _BV(RXEN0) | _BV(RXCIE0);
}

static void note_off(uint8_t channel, uint8_t key) {
  for (uint8_t i = 0; i < VOICES; i++) {
    if (voices[i].channel == channel && voices[i].key == key) voices[i].period = 0;
  }
}

/* A free voice, or the one that has sounded longest. */
static struct voice *voice_for_note(ticks_t now) {
  struct voice *oldest = &voices[0];
  for (uint8_t i = 0; i < VOICES; i++) {
    if (voices[i].period == 0) return &voices[i];
    if (now - voices[i].since > now - oldest->since) oldest = &voices[i];
  }
  return oldest;
}

static void note_on(uint8_t channel, uint8_t key, uint8_t velocity) {
  note_off(channel, key);
  ticks_t now = pulse_now();
  struct voice *voice = voice_for_note(now);
  uint32_t period = pgm_read_dword(&note_period[key]);
  while (period < ((uint32_t)RATE_WINDOW_STEPS << 18) / STARTS_IN_WINDOW) period <<= 1; /* too high: octaves down */
  voice->channel = channel;
  voice->key = key;
  voice->since = now;
  voice->next = now + 2000;
  voice->fraction = 0;
  voice->on = (uint16_t)((uint32_t)MAX_ON_TICKS * velocity / 127 * volume[channel] / 127);
  voice->period = period;
}

static void message(uint8_t status, uint8_t first, uint8_t second) {
  uint8_t channel = status & 0x0f;
  switch (status & 0xf0) {
    case 0x80:
      note_off(channel, first);
      break;
    case 0x90:
      if (second == 0) {
        note_off(channel, first);
      } else {
        note_on(channel, first, second);
      }
      break;
    case 0xb0:
      if (first == 7) volume[channel] = second;
      if (first == 120 || first == 123) all_off();
      break;
    default:
      break;
  }
}

static void take(uint8_t byte) {
  if (byte >= 0xf8) { /* real time, may stand inside another message */
    if (byte == 0xfe) {
      heard = pulse_now();
      alive = true;
    }
    if (byte == 0xfc || byte == 0xff) all_off();
    return;
  }
  if (byte & 0x80) {
    status_byte = byte < 0xf0 ? byte : 0;
    have_first = false;
    return;
  }
  if (status_byte == 0) return;
  bool short_one = (status_byte & 0xe0) == 0xc0;
  if (short_one) return;
  if (!have_first) {
    first_data = byte;
    have_first = true;
    return;
  }
  have_first = false;
  message(status_byte, first_data, byte);
}

static void take_received(void) {
  for (uint8_t budget = 8; budget > 0; budget--) {
    uint8_t status = SREG;
    cli();
    bool any = received_count > 0;
    uint8_t byte = received[received_first];
    if (any) {
      received_first = (uint8_t)((received_first + 1) & (RECEIVED_SIZE - 1));
      received_count--;
    }
    bool lost = overrun;
    overrun = false;
    SREG = status;
    if (lost) { /* a lost byte may have been a note off */
      all_off();
      status_byte = 0;
    }
    if (!any) return;
    take(byte);
  }
}

/* On-time of a voice where all that sound share the duty, so that the limits need not cut pulses out of a tone. */
static uint16_t shared_on(const struct voice *voice, uint8_t sounding) {
  uint32_t in_window = DUTY_WINDOW_TICKS / (voice->period >> 12) + 1;
  uint32_t share = DUTY_TICKS / in_window / sounding;
  return voice->on < share ? voice->on : (uint16_t)share;
}

void player_keep(void) {
  take_received();
  ticks_t now = pulse_now();
  if (alive && now - heard > HEARTBEAT_TICKS) alive = false;
  if (!alive || !pulse_key_closed()) {
    all_off();
    return;
  }
  struct voice *first = 0;
  uint8_t sounding = 0;
  for (uint8_t i = 0; i < VOICES; i++) {
    struct voice *voice = &voices[i];
    if (voice->period == 0) continue;
    sounding++;
    if (now - voice->since > LONGEST_NOTE_TICKS) {
      voice->period = 0;
      continue;
    }
    if (!first || (int32_t)(voice->next - first->next) < 0) first = voice;
  }
  /* Only what is due soon, so that a note off is heard at once. */
  if (!first || (int32_t)(first->next - now) > 6000) return;
  if ((int32_t)(first->next - now) > 200 && !pulse_offer(first->next, shared_on(first, sounding))) return;
  uint32_t step = first->period + first->fraction;
  first->next += step >> 12;
  first->fraction = (uint16_t)(step & 0xfff);
}
`;
