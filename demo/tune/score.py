"""Borrowed Ladder: a twelve-bar blues in G, written for this demo. What is played, not how."""

TITLE = "Borrowed Ladder"
SLUG = "borrowed-ladder"

INTRO_BARS = 4
CHORUS_BARS = 12
CHORUSES = 3
FIRST_CHORUS_BAR = INTRO_BARS + 1
TAG_BAR = FIRST_CHORUS_BAR + CHORUSES * CHORUS_BARS
LAST_BAR = TAG_BAR + 2

FORM = "G7 | C7 | G7 | Dm7 G7 | C7 | C#dim7 | G7 | Bm7 E7 | Am7 | D7 | G7 E7 | Am7 D7"
INTRO_CHORDS = "G7 E7 | Am7 D7 | G7 E7 | Am7 D7"
TAG_CHORDS = "G7 E7 | Am7 D7 | G7"

# Two bars of call, the same lifted, then the long answer: a motif (G, up to B, the arpeggio back) that returns at the end.
PICKUP = "4 D4; 4& E4"
CHORUS_1 = [
    "1 G4; 1& B4 4/3 grace:Bb4 accent; 3 D5; 3& B4 slur; 4 G4; 4& E4 ghost",
    "1 Bb4 5/3 slide_in:1; 2& G4 accent short; 4 D4; 4& E4",
    "1 G4; 1& B4 4/3 grace:Bb4 accent; 3 D5; 3& F5; 4 E5; 4& D5 slur",
    "1 C5; 1& A4; 2 F4; 2& A4 slur; 3 Ab4 accent; 3& G4 slur; 4 F4; 4& D#4",
    "1 E4; 1& G4; 2 Bb4; 2& D5 accent; 3 D5 4/3 trill:E5; 4& C5 slur",
    "1 Bb4; 1& G4; 2 E4; 2& C#4 ghost; 3 E4 1/3; 3+1/3 G4 slur; 3+2/3 Bb4; 4 C#5; 4& E5",
    "1 D5 accent; 1& B4 slur; 2 G4 1; 3& D5; 4 F5 slide_in:1; 4& D5 slur",
    "1 B4; 1& D5; 2 F#5; 2& D5 slur; 3 F5 accent; 3& D5; 4 B4; 4& G#4",
    "1 A4; 1& C5; 2 E5; 2& G5; 3 F#5; 3& E5 slur; 4 D5; 4& C5 slur",
    "1 B4; 1& Bb4 ghost; 2 A4 2/3 short; 3 Eb5 2/3 accent; 3+2/3 C5 2/3; 4+1/3 A4 2/3",
    "1 B4 grace:Bb4; 1& D5; 2 G4 short; 3& G#4; 4 B4; 4& D5",
    "1 C5; 1& E5; 2 Eb5; 2& C5 slur; 3 A4; 3& F#4 ghost; 4 G4 short accent",
]

# Longer lines: the arpeggios of the changes, enclosures into the third, one bar of double time.
CHORUS_2 = [
    "2 G4 1/3; 2+1/3 B4 slur; 2+2/3 D5; 3 F5 accent; 3& E5 slur; 4 D5; 4& Db5",
    "1 C5; 1& Bb4 slur; 2 A4; 2& G4 slur; 3 E4; 3& G4; 4 C5; 4& A#4 slur",
    "1 B4 4/3 accent; 2& D5; 3 G5 4/3 slide_in:1 accent; 4& F5 slur",
    "1 E5; 1& D5; 2 C5; 2& A4 slur; 3 B4 1/3; 3+1/3 D5 slur; 3+2/3 F5; 4 Ab5 accent; 4& F5 slur",
    "1 G5 accent; 1& Eb5; 2 C5; 2& Bb4 ghost; 3 C5 4/3 slide_out:2",
    "1 C#5; 1& E5; 2 G5; 2& Bb5 accent; 3 G5; 3& E5 slur; 4 C#5; 4& E5",
    "1 D5; 1& B4 slur; 2 G4; 2& A4; 3 Bb4 1/3; 3+1/3 B4 slur; 3+2/3 D5; 4 G5; 4& E5 slur",
    "1 F#5; 1& E5; 2 D5; 2& B4 slur; 3 G#4 1/3; 3+1/3 B4 slur; 3+2/3 D5; 4 F5; 4& E5 slur",
    "1 C5; 1& B4 slur; 2 A4; 3 A4 1/4; 3+1/4 B4 slur; 3+1/2 C5 1/4; 3+3/4 D5 slur; 4 E5; 4& G5 accent",
    "1 F#5; 1& E5 slur; 2 Eb5; 2& C5; 3 A4; 3& F#4 ghost; 4 C5; 4& A#4 slur",
    "1 B4 1 accent; 3 G#4; 3& B4; 4 F5; 4& D5 slur",
    "1 C5; 1& A4 slur; 2 F#4; 2& D4 ghost; 3& D5; 4 F5 slide_in:1; 4& D5 slur ghost",
]

# Call and answer over the bar line, climbing to the top note in bar 7; the motif of chorus 1 closes it.
CHORUS_3 = [
    "1 F5 4/3 slide_in:2 accent; 2& D5; 3 B4 grace:Bb4; 3& G4 accent short; 4 D5; 4& D5 ghost",
    "1 F5 4/3 slide_in:2 accent; 2& Eb5 slur; 3 C5; 3& G4 short; 4 D5; 4& D5 ghost",
    "1 F5; 1& G5 accent; 2 F5 slur; 2& D5; 3 D5 1/3; 3+1/3 Bb4 slur; 3+2/3 G4; 4 F4; 4& G4 5/3",
    "2& D4; 3 F4; 3& Ab4; 4 B4; 4& Bb4 slur",
    "1 A4; 1& G4 slur; 2 E4; 2& C4; 3 Bb3 4/3 slide_in:1; 4& C4 ghost",
    "1 E4; 1& G4; 2 Bb4; 2& C#5; 3 E5; 3& G5; 4 Bb5 2/3 accent",
    "1 B5 4/3 trill:C6 accent; 2& A5; 3 G5; 3& F5 slur; 4 D5; 4& B4 slur",
    "1 D5; 1& F#5; 2 A5; 2& F#5 slur; 3 G#5 accent; 3& F5; 4 D5; 4& B4 ghost",
    "1 C5 4/3; 2& E5; 3 A5 2/3 accent; 3+2/3 G5 2/3; 4+1/3 E5 2/3",
    "1 F#5 grace:F5; 1& Eb5; 2 C5; 2& A4 slur; 3 Bb4; 3& G4 ghost; 4 F#4; 4& A4",
    "1 G4; 1& B4 4/3 grace:Bb4 accent; 3 D5; 3& B4 slur; 4 G4; 4& E4 ghost",
    "1 Bb4 5/3 slide_in:1; 2& G4 accent short; 4 D4; 4& E4",
]
TAG = [
    "1 G4; 1& B4 4/3 grace:Bb4; 3 D5; 3& B4 slur; 4 G4; 4& E4 ghost",
    "1 Bb4 5/3 slide_in:1; 2& G4 short; 4 D4; 4& F#4",
    "1 G4 3 accent",
]
LEAD = ["", "", "", PICKUP] + CHORUS_1 + CHORUS_2 + CHORUS_3 + TAG

# Walking bass, four to the bar.
BASS_INTRO = ["G1 B1 E2 G#1", "A1 E2 D2 F#2", "G2 D2 E2 B1", "A1 C2 D2 F#1"]
BASS_A = [
    "G1 B1 D2 E2", "C2 E2 G2 F#2", "G2 D2 B1 C#2", "D2 F2 G2 B1", "C2 G2 E2 C2", "C#2 E2 Bb2 C#2",
    "D2 B1 G1 A#1", "B1 F#2 E2 G#1", "A1 C2 E2 Eb2", "D2 C2 A1 F#1", "G1 B1 E2 G#1", "A1 E2 D2 F#2",
]
BASS_B = [
    "G2 A2 Bb2 B2", "C3 Bb2 A2 Ab2", "G2 F2 D2 Eb2", "D2 A1 G1 B1", "C2 D2 Eb2 E2", "G2 E2 Bb1 C#2",
    "D2 F2 G2 C2", "B1 D2 E2 Bb1", "A1 B1 C2 C#2", "D2 F#2 A2 Ab2", "G2 D2 E2 B1", "A1 E2 D2 Ab1",
]
BASS_TAG = ["G1 B1 E2 G#1", "A1 E2 D2 F#1", "G1"]
BASS = BASS_INTRO + BASS_A + BASS_B + BASS_A + BASS_TAG

# Piano voicings without the root, low enough to leave the line its room.
VOICINGS = {
    "G7": "F3 A3 B3 E4",
    "C7": "E3 G3 Bb3 D4",
    "Dm7": "F3 A3 C4 E4",
    "C#dim7": "E3 G3 Bb3 C#4",
    "Bm7": "A3 B3 D4 F#4",
    "E7": "G#3 B3 D4 F4",
    "Am7": "G3 B3 C4 E4",
    "D7": "F#3 C4 E4",
}


def chords_of_bar(bar):
    """Chord names of a bar, evenly spread over it."""
    if bar < FIRST_CHORUS_BAR:
        return INTRO_CHORDS.split("|")[bar - 1].split()
    if bar >= TAG_BAR:
        return TAG_CHORDS.split("|")[min(bar - TAG_BAR, 2)].split()
    return FORM.split("|")[(bar - FIRST_CHORUS_BAR) % CHORUS_BARS].split()
