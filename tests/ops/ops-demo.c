// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Halfshaft authors

/* One demo book a test binary. */

#include "ops-demo.h"

#include "hs-demo.h"
#include "hs-job-op.h"
#include "hs-vehicle-row.h"

#include <glib/gstdio.h>

static HsBook *demo_book;
static char *demo_folder;

HsBook *
ops_demo_book (void)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *path = NULL;
  HsBookUser user = { "test", "bench", 1, hs_demo_get_now () };

  if (demo_book != NULL)
    return demo_book;
  demo_folder = g_dir_make_tmp (NULL, &error);
  g_assert_no_error (error);
  path = g_build_filename (demo_folder, "demo.hsbook", NULL);
  demo_book = hs_demo_make (path, &user, &error);
  g_assert_no_error (error);
  return demo_book;
}

char *
ops_demo_vehicle (const char *plate)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) rows = NULL;

  hs_vehicle_row_list_by_plate (hs_book_get_store (ops_demo_book ()), plate, &rows, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (rows->len, ==, 1);
  return g_strdup (((HsVehicleRow *) g_ptr_array_index (rows, 0))->id);
}

char *
ops_demo_job (const char *number)
{
  g_autoptr (GError) error = NULL;
  char *id = hs_job_find (ops_demo_book (), number, &error);

  g_assert_no_error (error);
  return id;
}

int
ops_demo_run (void)
{
  int result = g_test_run ();
  const char *name;
  GDir *folder;

  if (demo_book == NULL)
    return result;
  g_clear_pointer (&demo_book, hs_book_close);
  folder = g_dir_open (demo_folder, 0, NULL);
  while (folder != NULL && (name = g_dir_read_name (folder)) != NULL)
    {
      g_autofree char *path = g_build_filename (demo_folder, name, NULL);

      g_unlink (path);
    }
  g_clear_pointer (&folder, g_dir_close);
  g_rmdir (demo_folder);
  g_clear_pointer (&demo_folder, g_free);
  return result;
}
