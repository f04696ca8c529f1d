/** The part of the firmware that alone may raise the output: `pulse.h` and `pulse.c`. */

export const pulseHeader = `/* The only code that raises the output. Whoever wants a pulse offers it here; the limits decide. */
#ifndef PULSE_H
#define PULSE_H

#include <stdbool.h>
#include <stdint.h>

/* Time counts ticks of 0.5 us in 32 bits and wraps after 35 minutes: compare differences, never times. */
typedef uint32_t ticks_t;

void pulse_setup(void);
ticks_t pulse_now(void);
/* Takes a pulse into the queue, in order of start. False: the queue is full, offer it again. */
bool pulse_offer(ticks_t start, uint16_t on);
/* To be called from the main loop, more often than every 10 ms. */
void pulse_keep(void);
/* Forgets what is queued. A pulse that is under way ends by itself at its time. */
void pulse_silence(void);
/* Whether the key may let pulses out: it was seen open after the last reset, and is closed now. */
bool pulse_key_closed(void);

#endif
`;

export const pulseSource = `/* Timer 1 counts ticks. Its compare unit A ends each pulse in hardware: the end is armed before the pulse begins,
 * so that a program that hangs cannot hold the output on. Compare unit B wakes the program shortly before a pulse. */
#include "pulse.h"

#include <avr/interrupt.h>
#include <avr/io.h>

#include "limits.h"

#define OUTPUT_BIT PB1 /* OC1A */
#define KEY_BIT PD2
#define LEAD_TICKS 120     /* wake this long before a pulse */
#define LATE_TICKS 4       /* a pulse that would begin later than this is left out */
#define FAR_TICKS 24000    /* a compare unit sees 32 ms ahead; stay well inside */
#define SHORTEST_TICKS 10
#define QUEUE_SIZE 8       /* power of two */

/* What the compare unit does to the output, by polarity of the transmitter. */
#if OUTPUT_IDLES_HIGH
#define COMPARE_RAISES _BV(COM1A1)
#define COMPARE_LOWERS (_BV(COM1A1) | _BV(COM1A0))
#else
#define COMPARE_RAISES (_BV(COM1A1) | _BV(COM1A0))
#define COMPARE_LOWERS _BV(COM1A1)
#endif

struct pulse {
  ticks_t start;
  uint16_t on;
};

static struct pulse queue[QUEUE_SIZE];
static volatile uint8_t queue_first, queue_count;
static volatile bool waked;
static volatile uint16_t high_half;

/* Pulses sent within the last window of duty, oldest first. */
static struct pulse sent[SENT_SIZE];
static uint8_t sent_first, sent_count;
static uint32_t sent_ticks;
/* Starts of pulses within the last window of rate, oldest first, in steps of 64 ticks. */
static uint16_t starts[STARTS_IN_WINDOW];
static uint16_t starts_first, starts_count;
static struct pulse last;
static bool any_last;

static bool key_was_open;
static uint8_t key_open_for, key_closed_for;

void pulse_setup(void) {
#if OUTPUT_IDLES_HIGH
  PORTB |= _BV(OUTPUT_BIT);
#else
  PORTB &= (uint8_t)~_BV(OUTPUT_BIT);
#endif
  TCCR1A = COMPARE_LOWERS;
  TCCR1C = _BV(FOC1A); /* puts the compare unit's own level at rest before the pin is given to it */
  DDRB |= _BV(OUTPUT_BIT);
  PORTD |= _BV(KEY_BIT); /* pull-up: an open or broken key reads as open */
  TCCR1B = _BV(CS11);    /* 16 MHz / 8 */
  TIMSK1 = _BV(TOIE1);
}

ISR(TIMER1_OVF_vect) { high_half++; }

/* With interrupts off. */
static ticks_t now_inside(void) {
  uint16_t low = TCNT1;
  uint16_t high = high_half;
  if ((TIFR1 & _BV(TOV1)) && low < 0x8000) high++;
  return ((ticks_t)high << 16) | low;
}

ticks_t pulse_now(void) {
  uint8_t status = SREG;
  cli();
  ticks_t time = now_inside();
  SREG = status;
  return time;
}

static ticks_t end_of(const struct pulse *pulse) { return pulse->start + pulse->on; }

static void forget_before(ticks_t time) {
  while (sent_count > 0 && (int32_t)(end_of(&sent[sent_first]) - time) <= 0) {
    sent_ticks -= sent[sent_first].on;
    sent_first = (uint8_t)((sent_first + 1) & (SENT_SIZE - 1));
    sent_count--;
  }
}

static void forget_starts_before(ticks_t time) {
  uint16_t step = (uint16_t)(time >> 6);
  while (starts_count > 0 && (uint16_t)(step - starts[starts_first]) >= RATE_WINDOW_STEPS) {
    starts_first = starts_first + 1 == STARTS_IN_WINDOW ? 0 : starts_first + 1;
    starts_count--;
  }
}

/* The last word on every pulse. Whatever is offered, by whomever, only what holds every limit goes out. */
static bool holds_limits(const struct pulse *pulse) {
  if (pulse->on < SHORTEST_TICKS || pulse->on > MAX_ON_TICKS) return false;
  if (any_last) {
    if ((int32_t)(pulse->start - end_of(&last)) < (int32_t)MIN_GAP_TICKS) return false;
  }
  ticks_t window_start = end_of(pulse) - DUTY_WINDOW_TICKS;
  forget_before(window_start);
  if (sent_count == SENT_SIZE) return false;
  uint32_t on = sent_ticks + pulse->on;
  if (sent_count > 0) {
    int32_t cut = (int32_t)(window_start - sent[sent_first].start);
    if (cut > 0) on -= (uint32_t)cut;
  }
  forget_starts_before(pulse->start);
  return on <= DUTY_TICKS && starts_count < STARTS_IN_WINDOW;
}

static void remember(const struct pulse *pulse) {
  sent[(sent_first + sent_count) & (SENT_SIZE - 1)] = *pulse;
  sent_count++;
  sent_ticks += pulse->on;
  uint16_t place = starts_first + starts_count;
  starts[place >= STARTS_IN_WINDOW ? place - STARTS_IN_WINDOW : place] = (uint16_t)(pulse->start >> 6);
  starts_count++;
  last = *pulse;
  any_last = true;
}

static void drop_first(void) {
  queue_first = (uint8_t)((queue_first + 1) & (QUEUE_SIZE - 1));
  queue_count--;
}

/* With interrupts off: sets the alarm for the first pulse of the queue, if it is near. */
static void wake_for_first(void) {
  while (!waked && queue_count > 0) {
    ticks_t now = now_inside();
    int32_t ahead = (int32_t)(queue[queue_first].start - now);
    if (ahead < 0) {
      drop_first();
      continue;
    }
    if (ahead > FAR_TICKS) return;
    OCR1B = ahead > LEAD_TICKS + 10 ? (uint16_t)(queue[queue_first].start - LEAD_TICKS) : (uint16_t)(TCNT1 + 8);
    TIFR1 = _BV(OCF1B);
    TIMSK1 |= _BV(OCIE1B);
    waked = true;
  }
}

ISR(TIMER1_COMPB_vect) {
  TIMSK1 &= (uint8_t)~_BV(OCIE1B);
  waked = false;
  if (queue_count > 0) {
    struct pulse pulse = queue[queue_first];
    drop_first();
    int32_t ahead = (int32_t)(pulse.start - now_inside());
    if (ahead >= 0 && ahead <= 2 * LEAD_TICKS && holds_limits(&pulse)) {
      uint16_t start = (uint16_t)pulse.start;
      OCR1A = (uint16_t)(start + pulse.on); /* the end, armed first */
      while ((int16_t)(TCNT1 - start) < 0) {
      }
      if ((int16_t)(TCNT1 - start) <= LATE_TICKS) {
        TCCR1A = COMPARE_RAISES;
        TCCR1C = _BV(FOC1A);
        TCCR1A = COMPARE_LOWERS;
        remember(&pulse);
      }
    }
  }
  wake_for_first();
}

bool pulse_offer(ticks_t start, uint16_t on) {
  bool taken = false;
  uint8_t status = SREG;
  cli();
  if (queue_count < QUEUE_SIZE) {
    struct pulse *place = &queue[(queue_first + queue_count) & (QUEUE_SIZE - 1)];
    place->start = start;
    place->on = on > MAX_ON_TICKS ? MAX_ON_TICKS : on;
    queue_count++;
    taken = true;
  }
  wake_for_first();
  SREG = status;
  return taken;
}

void pulse_silence(void) {
  uint8_t status = SREG;
  cli();
  queue_count = 0;
  TIMSK1 &= (uint8_t)~_BV(OCIE1B);
  waked = false;
  SREG = status;
}

/* A key that was closed all along, or is welded shut, lets nothing out: it must be seen open first. */
static void watch_key(void) {
  static ticks_t looked;
  ticks_t now = pulse_now();
  if (now - looked < TICKS_PER_SECOND / 1000) return;
  looked = now;
  if (PIND & _BV(KEY_BIT)) {
    key_closed_for = 0;
    if (key_open_for < 20) key_open_for++;
    if (key_open_for == 20) key_was_open = true;
  } else {
    key_open_for = 0;
    if (key_closed_for < 20) key_closed_for++;
  }
}

bool pulse_key_closed(void) { return key_was_open && key_closed_for == 20 && !(PIND & _BV(KEY_BIT)); }

void pulse_keep(void) {
  watch_key();
  if (!pulse_key_closed()) pulse_silence();
  uint8_t status = SREG;
  cli();
  ticks_t now = now_inside();
  forget_before(now - DUTY_WINDOW_TICKS);
  forget_starts_before(now);
  if (any_last && (int32_t)(now - end_of(&last)) > (int32_t)TICKS_PER_SECOND) any_last = false;
  wake_for_first();
  SREG = status;
}
`;
