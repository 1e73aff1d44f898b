// Photographs of a screen that was never there: page, set, phone and hand in, a JPEG file out.
// Judges the photo estimators, so it includes nothing of src/.
#pragma once

#include <array>
#include <cstdint>
#include <string>
#include <vector>

#include "support/renderer_light.hpp"

namespace benchgraft::renderer {

/// A test page: red, green, blue, one byte each; above 127 counts as on.
struct Sheet {
  int width = 0, height = 0;
  std::vector<std::uint8_t> rgb;
};

/// The phone: sensor, lens, how it is held, how it writes the file.
struct Phone {
  int width = 1600, height = 1200;
  Sensor sensor;
  double exposure_s = 0.2;
  double readout_s = 0.02;   ///< from first to last row
  double full_well = 6000;   ///< electrons at the brightest value
  double read_noise = 4;     ///< electrons
  double exposure = 0.7;     ///< of the brightest value, for white
  double blur = 0.8;         ///< deviation in pixels
  double vignetting = 0.25;  ///< light lost in the corners
  double lens_k = -0.02;     ///< radial term, at half the diagonal
  double flare = 0.004;      ///< of the mean light, everywhere
  double cast = 1.0;         ///< red against blue, white-balance error
  int quality = 90;          ///< JPEG
  double yaw_deg = 0, pitch_deg = 0, roll_deg = 0;
  double fill = 0.75;           ///< screen width over photo width
  double off_x = 0, off_y = 0;  ///< where the screen's middle is, in shares of the photo
  int orientation = 1;          ///< written into the camera record; the picture is turned to match
  bool camera_record = true;
};

/// The cabinet's part in it.
struct Room {
  double hot_spot = 0.2;    ///< light lost at the screen's corners
  double ambient = 0.002;   ///< of white, everywhere
  double pixel_grid = 0.0;  ///< depth of the lines between image pixels
  double aspect = 16.0 / 9;
  std::array<double, 4> turn{1, 0, 0,
                             1};    ///< picture as seen: row by row, in equal units across and down
  double shift_x = 0, shift_y = 0;  ///< of the picture, in shares of the screen
  double size_x = 1, size_y = 1;    ///< picture over screen
  double turned_deg = 0;            ///< picture, clockwise as seen
  double keystone = 0;              ///< top narrower (> 0) by this share
};

std::string photograph(const Sheet& sheet, const Wheel& wheel, double delay_deg, const Phone& phone,
                       const Room& room, std::uint64_t seed);

/// Believable sets, phones and hands.
Wheel some_wheel(Dice& dice);
Phone some_phone(Dice& dice);
Room some_room(Dice& dice);

/// Linear sensor responses, three a pixel, through Bayer mosaic, noise, demosaicing, colour matrix,
/// sRGB and JPEG. `white`: response of the screen's white.
std::string develop(std::vector<float> raw, const Three& white, const Phone& phone, Dice& dice);

/// What the half-pixel set shows in a close-up of `sheet`.
struct Actuator {
  double gain = 1;       ///< shift over the right shift
  bool swapped = false;  ///< sub-frames in the wrong order
  double spot = 0.25;    ///< blur of the picture on the screen, deviation in image pixels
  double frame_s = 1.0 / 60;
  double gap = 0.04;  ///< dark rim of a mirror, share of its half diagonal
};
struct CloseUp {
  double left = 0, top = 0;  ///< image pixel at the photo's top left
  double scale = 7;          ///< photo pixels per image pixel
  double tilt_deg = 3;
  double keystone = 0.01;  ///< change of scale over the picture
};
std::string close_up(const Sheet& sheet, const Actuator& actuator, const CloseUp& view,
                     const Phone& phone, std::uint64_t seed);

}  // namespace benchgraft::renderer
